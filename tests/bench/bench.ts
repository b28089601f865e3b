/** All benchmarks in one run. A new one is a file in `rows/` and a line here. */
import { buildGround, type Ground } from './ground.ts';
import { measured } from './measured.ts';
import type { Bench } from './row.ts';
import { coldStartBench } from './rows/coldStart.ts';
import { coreBench } from './rows/core.ts';
import { longLogBench } from './rows/longLog.ts';
import { memoryBench } from './rows/memory.ts';
import { pictureBench } from './rows/picture.ts';
import { plannerBench } from './rows/planner.ts';
import { sizeBench } from './rows/size.ts';
import { tapBench } from './rows/tap.ts';
import type { Results } from './table.ts';

const BENCHES: readonly Bench<Ground>[] = [
  tapBench,
  coldStartBench,
  plannerBench,
  pictureBench,
  coreBench,
  longLogBench,
  memoryBench,
  sizeBench,
];

export const benchNames = BENCHES.map(({ name }) => name);

/** Builds, measures and answers the rows; `only` names the benches wanted, none means all. */
export async function runBenches(
  only: readonly string[],
  say: (what: string) => void,
): Promise<Results> {
  const wanted = BENCHES.filter(({ name }) => only.length === 0 || only.includes(name));
  say('building');
  const ground = await buildGround();
  try {
    return await measured(
      wanted.flatMap(({ parts }) => parts),
      ground,
      say,
    );
  } finally {
    ground.remove();
  }
}
