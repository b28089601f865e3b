/** Logs for tests: happenings given ids and chained as a device would. */
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import { happened } from '../../../src/core/bench/happened.ts';
import { type Progress, startOf } from '../../../src/core/bench/progress.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';

export function logged(happenings: readonly Happening[]): readonly LogEvent[] {
  return happenings.map((it, n) => ({
    ...it,
    id: `e${n}`,
    warp: 'w',
    after: n === 0 ? null : `e${n - 1}`,
    at: '2024-05-01T10:00:00Z',
  }));
}

export function having(plan: Plan, ...happenings: readonly Happening[]): Progress {
  return happenings.reduce(happened, startOf(plan));
}

export const thrown = (picks: number): Happening => ({ kind: 'thrown', picks });
export const takenOut = (picks: number): Happening => ({ kind: 'takenOut', picks });
