import { describe, expect, it } from 'vitest';
import { NO_WORK, reminderOf, workSince, workTogether } from '../../../src/core/backup/reminder.ts';
import { picksOf, timeAt } from './states.ts';

const DAY = 24 * 60;

describe('work since an export', () => {
  const log = picksOf('p', 10);

  it.each([
    ['never exported', null, { picks: 10, since: timeAt(0) }],
    ['exported before the first', timeAt(-1), { picks: 10, since: timeAt(0) }],
    ['exported after the fourth', timeAt(3), { picks: 6, since: timeAt(4) }],
    ['exported after the last', timeAt(9), NO_WORK],
  ])('%s', (_when, exportedAt, work) => {
    expect(workSince(log, exportedAt)).toEqual(work);
  });

  it('is more than picks: an undo is work too', () => {
    const undone = { id: 'u', warp: 'w', after: 'p9', at: timeAt(50) };
    const after = [...log, { ...undone, kind: 'undone' as const, event: 'p9' }];
    expect(workSince(after, timeAt(20))).toEqual({ picks: 0, since: timeAt(50) });
  });

  it('of several warps is taken together', () => {
    const works = [{ picks: 3, since: timeAt(7) }, NO_WORK, { picks: 4, since: timeAt(2) }];
    expect(workTogether(works)).toEqual({ picks: 7, since: timeAt(2) });
    expect(workTogether([])).toEqual(NO_WORK);
  });
});

describe('a reminder', () => {
  it.each([
    ['nothing woven', NO_WORK, timeAt(0), 99 * DAY, null],
    ['500 picks since yesterday', { picks: 500, since: timeAt(0) }, timeAt(0), DAY, null],
    [
      '501 picks since yesterday',
      { picks: 501, since: timeAt(0) },
      timeAt(0),
      DAY,
      { picks: 501, days: 1 },
    ],
    ['one pick, six days ago', { picks: 1, since: timeAt(0) }, timeAt(0), 6.9 * DAY, null],
    [
      'one pick, seven days ago',
      { picks: 1, since: timeAt(0) },
      timeAt(0),
      7 * DAY,
      { picks: 1, days: 7 },
    ],
    ['never exported, first pick today', { picks: 9, since: timeAt(0) }, null, 60, null],
    [
      'never exported, first pick a week ago',
      { picks: 9, since: timeAt(0) },
      null,
      7 * DAY,
      { picks: 9, days: 7 },
    ],
    ['a clock turned back', { picks: 9, since: timeAt(0) }, timeAt(0), -9 * DAY, null],
  ])('%s', (_what, work, exportedAt, minutes, reminder) => {
    expect(reminderOf(work, exportedAt, timeAt(minutes))).toEqual(reminder);
  });
});
