/** Something of the core and its floor, timed in turns in a process of their own. */
import type { Limit, Unit } from '../row.ts';

export interface Pair {
  readonly what: string;
  readonly against: string;
  readonly unit: Exclude<Unit, 'kB'>;
  readonly limits: readonly Limit[];
  /** Makes what both need, outside the time. */
  readonly prepare: () => Work;
}

export interface Work {
  readonly ours: () => unknown;
  /** Absent where there is only a budget. */
  readonly floor?: () => unknown;
  /** How often one run does the thing; its time is divided by this. */
  readonly times: number;
}

export interface PairTimes {
  readonly ours: readonly number[];
  readonly floor: readonly number[] | null;
}

const PER_MS = { ms: 1, µs: 1_000 } as const;

/** What the runs answered, kept where no compiler can prove that nobody looks. */
const answers: unknown[] = [];

/** Runs both `rounds` times in turns after warming both up. */
export function timePair({ prepare, unit }: Pair, rounds: number): PairTimes {
  const { ours, floor, times } = prepare();
  const scale = PER_MS[unit] / times;
  for (let i = 0; i < WARM_UP; i++) for (const run of [ours, floor]) if (run) timeOf(run);
  const oursTimes: number[] = [];
  const floorTimes: number[] = [];
  for (let i = 0; i < rounds; i++) {
    oursTimes.push(timeOf(ours) * scale);
    if (floor !== undefined) floorTimes.push(timeOf(floor) * scale);
  }
  return { ours: oursTimes, floor: floor === undefined ? null : floorTimes };
}

const WARM_UP = 8;

function timeOf(run: () => unknown): number {
  // The garbage of the run before is not this one's.
  globalThis.gc?.();
  const start = performance.now();
  answers[0] = run();
  return performance.now() - start;
}
