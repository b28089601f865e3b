/** Something of the core and its floor, timed in turns in a process of their own. */
import type { Limit } from '../row.ts';

export interface Pair {
  readonly what: string;
  readonly against: string;
  readonly unit: keyof typeof PER_MS;
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

/** Enough for medians and p95s; a slow pair stops at the time (ms), but not before the fewest. */
const TIMED = { most: 60, fewest: 12, ms: 5_000 } as const;
const WARM_UP = { most: 12, fewest: 4, ms: 1_500 } as const;

/**
 * Runs both in turns after warming both up. No garbage is collected by force between the runs: that
 * throws away compiled code too, and the next run would be of another program.
 */
export function timePair({ prepare, unit }: Pair): PairTimes {
  const { ours, floor, times } = prepare();
  const scale = PER_MS[unit] / times;
  inTurns(ours, floor, 1, WARM_UP);
  return inTurns(ours, floor, scale, TIMED);
}

type Rounds = { readonly most: number; readonly fewest: number; readonly ms: number };

function inTurns(
  ours: () => unknown,
  floor: (() => unknown) | undefined,
  scale: number,
  rounds: Rounds,
): PairTimes {
  const end = performance.now() + rounds.ms;
  const times = { ours: [] as number[], floor: [] as number[] };
  for (let i = 0; i < rounds.most; i++) {
    if (i >= rounds.fewest && performance.now() > end) break;
    times.ours.push(timeOf(ours) * scale);
    if (floor !== undefined) times.floor.push(timeOf(floor) * scale);
  }
  return { ours: times.ours, floor: floor === undefined ? null : times.floor };
}

function timeOf(run: () => unknown): number {
  const start = performance.now();
  answers[0] = run();
  return performance.now() - start;
}
