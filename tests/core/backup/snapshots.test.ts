import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  isSnapshotDue,
  SNAPSHOT_REASONS,
  SNAPSHOT_RULE,
  type SnapshotNote,
  type SnapshotReason,
  snapshotsToDrop,
} from '../../../src/core/backup/snapshots.ts';
import { picksOf, timeAt } from './states.ts';

const DAY = 24 * 60;
const HOLDS = { warps: 1, plans: 1, events: 1, records: 0, settings: 0 };

/** One taken so many days before now, which is `timeAt(0)`. */
function note(id: string, reason: SnapshotReason, daysAgo: number, bytes = 1000): SnapshotNote {
  return { id, madeAt: timeAt(-daysAgo * DAY), reason, app: '0.1.0', holds: HOLDS, bytes };
}

const keptOf = (notes: readonly SnapshotNote[]) => {
  const gone = new Set(snapshotsToDrop(notes, timeAt(0)).map(({ id }) => id));
  return notes.map(({ id }) => id).filter((id) => !gone.has(id));
};

describe('snapshots that stay', () => {
  it('of a day of weaving the eight newest', () => {
    const halfHours = Array.from({ length: 12 }, (_, n) => note(`${n}`, 'weaving', n / 48));
    expect(keptOf(halfHours)).toEqual(['0', '1', '2', '3', '4', '5', '6', '7']);
  });

  it('of older days the last one of each, for fourteen days', () => {
    const two = Array.from({ length: 40 }, (_, n) => note(`${n / 2}`, 'weaving', 1 + n / 2));
    // At nine in the morning: half a day earlier is the day before.
    expect(keptOf(two)).toEqual([
      '0',
      '0.5',
      '1',
      '1.5',
      '2',
      '2.5',
      '3',
      '3.5',
      '4.5',
      '5.5',
      '6.5',
      '7.5',
      '8.5',
      '9.5',
      '10.5',
      '11.5',
      '12.5',
    ]);
  });

  it('of those before an import, a removal and the like twenty, for thirty days', () => {
    const many = Array.from({ length: 25 }, (_, n) => note(`${n}`, 'removal', n / 10));
    expect(keptOf(many)).toHaveLength(20);
    const ages = [0, 29, 30, 31].map((age) => note(`${age}`, 'import', age));
    expect(keptOf(ages)).toEqual(['0', '29']);
  });

  it('a state replaced whole stays thirty days, whatever else there is and however big', () => {
    const replaced = note('r', 'replace', 29.5, SNAPSHOT_RULE.bytes);
    const others = Array.from({ length: 30 }, (_, n) => note(`${n}`, 'import', n / 100));
    expect(keptOf([...others, replaced])).toContain('r');
    expect(keptOf([...others, { ...replaced, madeAt: timeAt(-30 * DAY) }])).not.toContain('r');
  });

  it('together weigh at most a hundred megabytes: the oldest of weaving go first', () => {
    const heavy = SNAPSHOT_RULE.bytes / 4;
    const notes = [
      note('a', 'weaving', 0, heavy),
      note('b', 'import', 1, heavy),
      note('c', 'weaving', 2, heavy),
      note('d', 'weaving', 3, heavy),
      note('e', 'import', 4, heavy),
      note('f', 'import', 5, heavy),
    ];
    expect(keptOf(notes)).toEqual(['a', 'b', 'e', 'f']);
  });

  it('the newest stays though it weighs more than all may', () => {
    expect(keptOf([note('a', 'weaving', 90, 2 * SNAPSHOT_RULE.bytes)])).toEqual(['a']);
  });

  it('are within the bounds whatever was taken, the newest and every replaced state among them', () => {
    const any = fc.array(
      fc.tuple(
        fc.constantFrom(...SNAPSHOT_REASONS),
        fc.integer({ min: 0, max: 4000 }),
        fc.nat(30_000_000),
      ),
      { minLength: 1, maxLength: 80 },
    );
    fc.assert(
      fc.property(any, (taken) => {
        const notes = taken.map(([reason, n, bytes], k) => note(`${k}`, reason, n / 100, bytes));
        const gone = new Set(snapshotsToDrop(notes, timeAt(0)));
        const kept = notes.filter((it) => !gone.has(it));
        const held = kept.filter((it) => it.reason === 'replace');
        const free = kept.filter((it) => it.reason !== 'replace');
        const newest = Math.max(...notes.map(({ madeAt }) => Date.parse(madeAt)));
        expect(kept.some(({ madeAt }) => Date.parse(madeAt) === newest)).toBe(true);
        expect(notes.filter((it) => it.reason === 'replace' && ageOf(it) < 30)).toEqual(
          held.filter((it) => ageOf(it) < 30),
        );
        expect(free.filter(({ reason }) => reason === 'weaving').length).toBeLessThanOrEqual(
          8 + 14,
        );
        expect(free.filter(({ reason }) => reason !== 'weaving').length).toBeLessThanOrEqual(21);
        const weight = kept.reduce((sum, { bytes }) => sum + bytes, 0);
        const must = held.reduce((sum, { bytes }) => sum + bytes, 0) + 30_000_000;
        expect(weight).toBeLessThanOrEqual(Math.max(SNAPSHOT_RULE.bytes, must));
      }),
      { numRuns: 500 },
    );
  });
});

const ageOf = ({ madeAt }: SnapshotNote) =>
  -(Date.parse(madeAt) - Date.parse(timeAt(0))) / 86_400_000;

describe('while weaving, one pick a minute, the next snapshot is due', () => {
  it.each([
    ['at the first pick', 1, null, false],
    ['after 29 minutes', 30, null, false],
    ['after 30 minutes', 31, null, true],
    ['20 minutes after the last one', 61, timeAt(40), false],
    ['30 minutes after the first pick since the last one', 72, timeAt(40), true],
    ['with the last one taken after the last pick', 61, timeAt(99), false],
    ['with a last one older than the log', 31, timeAt(-1000), true],
    ['without a pick', 0, null, false],
  ] as const)('%s', (_when, picks, last, due) => {
    expect(isSnapshotDue(picksOf('p', picks), last)).toBe(due);
  });
});
