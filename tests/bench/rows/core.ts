/** The core in Node, minified as in the app, one fresh process a row. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import type { Pair, PairTimes } from '../core/pair.ts';
import { PAIRS } from '../core/pairs.ts';
import type { Ground } from '../ground.ts';
import { type Bench, type Row, spreadOf } from '../row.ts';

export const coreBench: Bench<Ground> = {
  name: 'core',
  parts: Object.entries(PAIRS).map(([name, pair]) => ({
    what: pair.what,
    run: async ({ coreDir }) => [rowOf(pair, timesIn(coreDir, name))],
  })),
};

function timesIn(coreDir: string, name: string): PairTimes {
  const args = [join(coreDir, 'child.js'), name];
  const ended = spawnSync(process.execPath, args, { encoding: 'utf8' });
  // Node also prints the whole line of the bundle that threw.
  const said = ended.stderr.split('\n').find((line) => /^\w*Error:/.test(line));
  if (ended.status !== 0) throw new Error(`${name} ended with ${ended.status}: ${said}`);
  return JSON.parse(ended.stdout);
}

function rowOf({ what, against, unit, limits }: Pair, { ours, floor }: PairTimes): Row {
  return {
    what,
    unit,
    limits,
    ours: spreadOf(ours),
    floor: floor === null ? null : { what: against, spread: spreadOf(floor) },
  };
}
