import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import { progressOf } from '../../../src/core/bench/progress.ts';
import { type Entry, journalOf, PAUSE_MINUTES } from '../../../src/core/journal/journal.ts';
import { anyPlan, happening } from '../bench/arbitraries.ts';
import { takenOut, thrown } from '../bench/logs.ts';
import { pieceOf, planOf, solid } from '../plan/samples.ts';

/** Two pieces of 20 picks, the first one hemstitched at its beginning. */
const PLAN = planOf({
  pieces: [
    pieceOf([solid('A', 20)], {
      beginning: { kind: 'hemstitch', fringe: 100, twisted: true },
    }),
    pieceOf([solid('B', 20)]),
  ],
});

/** Happenings at minutes from one morning on. */
function at(...timed: readonly (readonly [minutes: number, happening: Happening])[]) {
  return timed.map(
    ([minutes, it], n): LogEvent => ({
      ...it,
      id: `e${n}`,
      warp: 'w',
      after: n === 0 ? null : `e${n - 1}`,
      at: new Date(Date.UTC(2024, 4, 1, 9) + minutes * 60_000).toISOString(),
    }),
  );
}

const kinds = (entries: readonly Entry[] | undefined) => entries?.map((it) => it.what.kind);

describe('pieces woven by eye', () => {
  const free = { kind: 'free' } as const;
  const plan = planOf({ pieces: [pieceOf([free]), pieceOf([free])] });
  const of = (picks: number): Happening => ({ kind: 'thrownOf', yarn: 'A', picks });

  it('have their picks, their time, and are woven when they are told to be', () => {
    const log = at(
      [0, of(4)],
      [5, of(6)],
      [6, { kind: 'freeEnded' }],
      [8, of(2)],
      [9, takenOut(1)],
    );
    const { pieces, sittings } = journalOf(plan, log);
    expect(pieces.map(({ picks }) => picks)).toEqual([10, 1]);
    expect(sittings[0]?.pieces).toEqual([0, 1]);
    expect(kinds(sittings[0]?.entries)).toEqual(['pieceWoven', 'takenOut']);
    expect(sittings[0]?.entries.map(({ piece, pick }) => [piece, pick])).toEqual([
      [0, 10],
      [1, 1],
    ]);
  });

  it('tell of a length as it was worked out', () => {
    const wove: Happening = { kind: 'woveLengthOf', yarn: 'B', loomLength: 25.4 };
    const { sittings } = journalOf(plan, at([0, of(4)], [5, wove]));
    expect(sittings[0]?.entries[0]?.what).toEqual({
      kind: 'woveLength',
      loomLength: 25.4,
      picks: 10,
    });
  });
});

describe('sittings', () => {
  it('are split at pauses, with their picks, minutes and pace', () => {
    const log = at(
      [0, thrown(1)],
      [6, thrown(7)],
      [10, thrown(4)],
      [200, thrown(8)],
      [212, thrown(4)],
    );
    const { sittings, total } = journalOf(PLAN, log);
    expect(sittings.map(({ picks, minutes, pace }) => ({ picks, minutes, pace }))).toEqual([
      { picks: 12, minutes: 10, pace: 72 },
      { picks: 12, minutes: 12, pace: 60 },
    ]);
    expect(total).toEqual({ picks: 24, minutes: 22 });
    expect(sittings[1]?.pieces).toEqual([0, 1]);
    expect(sittings[0]?.from).toBe('2024-05-01T09:00:00.000Z');
  });

  it('go on over a short break', () => {
    const log = at([0, thrown(1)], [PAUSE_MINUTES, thrown(1)], [2 * PAUSE_MINUTES + 1, thrown(1)]);
    expect(journalOf(PLAN, log).sittings.map((it) => it.minutes)).toEqual([PAUSE_MINUTES, 0]);
  });

  it('too short to tell have no pace', () => {
    expect(journalOf(PLAN, at([0, thrown(4)], [2, thrown(4)])).sittings[0]?.pace).toBeNull();
  });

  it('a clock set back takes no time away', () => {
    const { sittings } = journalOf(PLAN, at([60, thrown(1)], [0, thrown(1)], [10, thrown(1)]));
    expect(sittings.map((it) => it.minutes)).toEqual([10]);
  });

  it('measuring the cloth is no weaving time', () => {
    const read: Happening = {
      kind: 'clothRead',
      reading: 'a',
      piece: 0,
      state: 'off',
      lengths: [9],
    };
    const { sittings } = journalOf(PLAN, at([0, thrown(20)], [10, read], [20, read]));
    expect(sittings[0]).toMatchObject({ minutes: 0, picks: 20 });
    expect(kinds(sittings[0]?.entries)).toEqual(['pieceWoven', 'clothRead', 'clothRead']);
  });
});

describe('what is told', () => {
  it('is what was due and done, notes, picks taken out, and the pieces woven', () => {
    const log = at(
      [0, { kind: 'warped', steps: 3 }],
      [1, { kind: 'warped', steps: 2 }],
      [2, thrown(4)],
      [3, { kind: 'dueDone', due: '0/hemstitch-beginning' }],
      [4, thrown(10)],
      [5, takenOut(3)],
      [6, { kind: 'noted', text: 'skipped an end, went back' }],
      [7, thrown(9)],
      [8, { kind: 'cutOff' }],
      [9, { kind: 'noted', text: 'for the kitchen', piece: 0 }],
    );
    const entries = journalOf(PLAN, log).sittings[0]?.entries;
    expect(kinds(entries)).toEqual([
      'warped',
      'due',
      'takenOut',
      'noted',
      'pieceWoven',
      'cutOff',
      'noted',
    ]);
    expect(entries?.[0]?.what).toEqual({ kind: 'warped', steps: 5 });
    expect(entries?.[1]?.what).toMatchObject({ outcome: 'done', due: { kind: 'hemstitch' } });
    expect(entries?.[2]).toMatchObject({ piece: 0, pick: 11, what: { picks: 3 } });
    expect(entries?.[3]).toMatchObject({ piece: 0, pick: 11 });
    // Between the pieces it still belongs to the one just woven.
    expect(entries?.[5]).toMatchObject({ piece: 0, pick: 20 });
    expect(entries?.[6]).toMatchObject({ piece: 0 });
  });

  it('leaves out what was undone, and keeps what was taken out', () => {
    const log = at(
      [0, thrown(5)],
      [1, { kind: 'noted', text: 'oh' }],
      [2, { kind: 'undone', event: 'e1' }],
    );
    const { sittings, total } = journalOf(PLAN, log);
    expect(kinds(sittings[0]?.entries)).toEqual([]);
    expect(total.picks).toBe(5);
  });

  it('picks worked out from a length are told with their number', () => {
    const entry = journalOf(PLAN, at([0, { kind: 'woveLength', loomLength: 25.4 }])).sittings[0]
      ?.entries[0];
    expect(entry?.what).toEqual({ kind: 'woveLength', loomLength: 25.4, picks: 10 });
  });

  it('each piece has its own picks, minutes and days', () => {
    const log = at([0, thrown(10)], [10, thrown(10)], [15, thrown(5)], [18, thrown(5)]);
    expect(journalOf(PLAN, log).pieces).toEqual([
      {
        piece: 0,
        picks: 20,
        minutes: 10,
        from: '2024-05-01T09:00:00.000Z',
        to: '2024-05-01T09:10:00.000Z',
      },
      {
        piece: 1,
        picks: 10,
        minutes: 8,
        from: '2024-05-01T09:15:00.000Z',
        to: '2024-05-01T09:18:00.000Z',
      },
    ]);
  });
});

describe('laws', () => {
  const anyLog = anyPlan.chain((plan) =>
    fc.record({
      plan: fc.constant(plan),
      steps: fc.array(fc.tuple(fc.integer({ min: 0, max: 90 }), happening(plan)), {
        maxLength: 20,
      }),
    }),
  );

  it('the picks of all sittings, and of all pieces, are the picks in the cloth', () => {
    fc.assert(
      fc.property(anyLog, ({ plan, steps }) => {
        const times = steps.map((_, n) => steps.slice(0, n + 1).reduce((sum, [it]) => sum + it, 0));
        const log = at(...steps.map(([, it], n) => [times[n] ?? 0, it] as const));
        const { sittings, pieces, total } = journalOf(plan, log);
        const { pick } = progressOf(plan, log);
        expect(sittings.reduce((sum, it) => sum + it.picks, 0)).toBe(pick);
        expect(pieces.reduce((sum, it) => sum + it.picks, 0)).toBe(pick);
        expect(total.picks).toBe(pick);
        expect(total.minutes).toBeCloseTo(
          sittings.reduce((sum, it) => sum + it.minutes, 0),
          6,
        );
      }),
    );
  });
});

describe('by eye', () => {
  const plan = planOf({ pieces: [pieceOf([solid('A', 4)]), pieceOf([{ kind: 'free' }])] });
  const by = (yarn: string, picks: number): Happening => ({ kind: 'thrownOf', yarn, picks });

  it('picks belong to the piece they were thrown in, which is woven when that is said', () => {
    const log = at(
      [0, thrown(4)],
      [1, by('A', 6)],
      [2, by('B', 4)],
      [3, { kind: 'noted', text: 'a wider stripe' }],
      [4, by('A', 6)],
      [10, { kind: 'freeEnded' }],
    );
    const { pieces, sittings } = journalOf(plan, log);
    expect(pieces.map(({ picks }) => picks)).toEqual([4, 16]);
    expect(kinds(sittings[0]?.entries)).toEqual(['pieceWoven', 'noted', 'pieceWoven']);
    expect(sittings[0]?.entries[1]).toMatchObject({ piece: 1, pick: 10 });
    expect(sittings[0]?.pieces).toEqual([0, 1]);
  });
});
