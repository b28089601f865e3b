/** All benchmarks in one run. A new one is a file in `rows/` and a line here. */
import { buildGround, type Ground } from './ground.ts';
import type { Bench, Row } from './row.ts';
import { coldStartBench } from './rows/coldStart.ts';
import { coreBench } from './rows/core.ts';
import { sizeBench } from './rows/size.ts';
import { tapBench } from './rows/tap.ts';

const BENCHES: readonly Bench<Ground>[] = [tapBench, coldStartBench, coreBench, sizeBench];

export const benchNames = BENCHES.map(({ name }) => name);

/** Builds, measures and answers the rows; `only` names the benches wanted, none means all. */
export async function runBenches(
  only: readonly string[],
  say: (what: string) => void,
): Promise<readonly Row[]> {
  const wanted = BENCHES.filter(({ name }) => only.length === 0 || only.includes(name));
  say('building');
  const ground = await buildGround();
  try {
    const rows: Row[] = [];
    for (const { name, run } of wanted) {
      say(name);
      rows.push(...(await run(ground)));
    }
    return rows;
  } finally {
    ground.remove();
  }
}
