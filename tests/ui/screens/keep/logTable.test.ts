import { describe, expect, it } from 'vitest';
import type { Happening, HappeningKind, LogEvent } from '../../../../src/core/bench/events.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { logTable } from '../../../../src/ui/screens/keep/logTable.ts';
import { logged, takenOut, thrown } from '../../../core/bench/logs.ts';
import { demo, pieceOf, planOf, solid } from '../../../core/plan/samples.ts';

const PLAN = planOf({
  units: 'metric',
  pieces: [
    pieceOf([solid('A', 10)], { name: 'Towel' }),
    pieceOf([solid('B', 10)], { name: 'Scarf' }),
  ],
});

/** Cells of a table whose cells have neither commas nor quotes in them. */
const cellsOf = (table: string) =>
  table
    .slice(1)
    .trimEnd()
    .split('\r\n')
    .map((line) => line.split(','));

const rowsOf = (log: readonly LogEvent[], plan: Plan = PLAN) =>
  cellsOf(logTable(plan, log)).slice(1);

describe('the log of a warp as a table', () => {
  it('has a line for each thing that happened, with the picks woven after it and the piece', () => {
    const log = logged([
      thrown(1),
      thrown(4),
      { kind: 'undone', event: 'e1' },
      thrown(12),
      takenOut(3),
    ]);
    const table = cellsOf(logTable(PLAN, log));
    expect(table[0]).toEqual([
      'Line',
      'Date',
      'Time',
      'What happened',
      'Picks',
      'Picks woven',
      'Piece',
      'Undone',
    ]);
    expect(table.slice(1).map(([line, , , ...rest]) => [line, ...rest].join(' | '))).toEqual([
      '1 | Thrown | 1 | 1 | Towel | ',
      '2 | Thrown: 4 picks | 4 | 5 | Towel | undone',
      '3 | Undid line 2 |  | 1 | Towel | ',
      '4 | Thrown: 12 picks | 12 | 13 | Scarf | ',
      '5 | Taken out: 3 picks | 3 | 10 | Towel | ',
    ]);
  });

  it('tells date and time by this device’s clock, as every spreadsheet reads them', () => {
    const at = new Date(2026, 2, 1, 9, 5, 7).toISOString();
    const [row] = rowsOf(logged([thrown(1)]).map((event) => ({ ...event, at })));
    expect(row?.slice(1, 3)).toEqual(['2026-03-01', '09:05:07']);
  });

  const EACH: {
    readonly [K in HappeningKind]: readonly [Extract<Happening, { kind: K }>, string];
  } = {
    thrown: [{ kind: 'thrown', picks: 1 }, 'Thrown'],
    takenOut: [{ kind: 'takenOut', picks: 1 }, 'Taken out: 1 pick'],
    woveLength: [{ kind: 'woveLength', loomLength: 75 }, 'Woven: 7.5 cm'],
    thrownOf: [{ kind: 'thrownOf', yarn: 'A', picks: 2 }, 'Thrown: 2 picks of A yarn A'],
    woveLengthOf: [
      { kind: 'woveLengthOf', yarn: 'B', loomLength: 75 },
      'Woven: 7.5 cm of B yarn B',
    ],
    freeEnded: [{ kind: 'freeEnded' }, 'Done weaving by eye'],
    undone: [{ kind: 'undone', event: 'e0' }, 'Undid line 1'],
    redone: [{ kind: 'redone', event: 'e0' }, 'Did line 1 again'],
    otherShed: [{ kind: 'otherShed' }, 'Took the other shed'],
    placed: [
      { kind: 'placed', pick: 7, shed: 'up', sides: {} },
      'Found the place: 7 picks woven; shed up next',
    ],
    dueDone: [{ kind: 'dueDone', due: '1/cut-off' }, 'Done: all pieces are woven'],
    dueDeferred: [{ kind: 'dueDeferred', due: 'x' }, 'Put off: what was due'],
    advanced: [{ kind: 'advanced' }, 'Advanced the warp'],
    blockSet: [
      { kind: 'blockSet', piece: 1, block: 0, picks: 12 },
      'Set block 1 of Scarf to 12 picks',
    ],
    warped: [{ kind: 'warped', steps: 3 }, 'Warping: 3 steps done'],
    cutOff: [{ kind: 'cutOff' }, 'Cut off the loom'],
    pinned: [{ kind: 'pinned', pin: 'p' }, 'Put a pin in at the fell'],
    measured: [
      {
        kind: 'measured',
        reading: 'r',
        loomLength: 120,
        from: { kind: 'start' },
        tension: 'eased',
      },
      'Measured 12 cm from the start; eased',
    ],
    readingStruck: [{ kind: 'readingStruck', reading: 'r' }, 'Struck a reading out'],
    aimRefused: [
      { kind: 'aimRefused', reading: 'r' },
      'Kept the picks as they were after a reading',
    ],
    blockKept: [
      { kind: 'blockKept', piece: 0, block: 0, by: 'picks' },
      'Keep the picks of block 1 of Towel',
    ],
    mirrorKept: [
      { kind: 'mirrorKept', piece: 0, by: 'length' },
      'Match the length in the second half of Towel',
    ],
    revised: [{ kind: 'revised', from: 1, pieces: [] }, 'Changed the plan from Scarf on'],
    weighed: [
      { kind: 'weighed', yarn: 'A', grams: 212, tare: 40 },
      'Weighed A yarn A: 212 g; of that 40 g cones and shuttles',
    ],
    bobbinChanged: [{ kind: 'bobbinChanged', yarn: 'B' }, 'New bobbin of B yarn B'],
    clothRead: [
      { kind: 'clothRead', reading: 'r', piece: 0, state: 'washed', lengths: [710], mass: 95 },
      'Measured washed: 71 cm long and 95 g (Towel)',
    ],
    warpRead: [
      { kind: 'warpRead', reading: 'r', tiedOn: 180, gaps: [50] },
      'The warp: 18 cm tied on and gaps of 5 cm',
    ],
    endRavelled: [
      { kind: 'endRavelled', reading: 'r', piece: 1, straightened: 220, inCloth: 200 },
      'An end of 20 cm drawn out and pulled to 22 cm (Scarf)',
    ],
    learntFrom: [
      { kind: 'learntFrom', piece: 1, counts: 'out' },
      'The next plans do not learn from it (Scarf)',
    ],
    noted: [{ kind: 'noted', text: 'Beat softer', piece: 0 }, 'Note (Towel): Beat softer'],
    photographed: [{ kind: 'photographed', photo: 'p', text: '=1+1' }, 'Photo: =1+1'],
  };

  it.each(Object.entries(EACH))(
    'says what a weaver understands: %s',
    (_kind, [happening, words]) => {
      const log = logged([thrown(2), happening]);
      expect(rowsOf(log)[1]?.[3]).toBe(words);
    },
  );

  it('names nothing that could be a formula', () => {
    const name = '=HYPERLINK("http://x","y")';
    const plan = planOf({ pieces: [pieceOf([solid('A', 10)], { name })] });
    const table = logTable(
      plan,
      logged([thrown(1), { kind: 'revised', from: 0, pieces: plan.pieces }]),
    );
    expect(table).toContain(`"'=HYPERLINK(""http://x"",""y"")"`);
    expect(table).not.toMatch(/(?:^|[,\n])"?[=+\-@]/);
  });

  it('of ten thousand picks with a slip in every hundred is made in one go', () => {
    const slips = Array.from(
      { length: 10_000 },
      (_, n): Happening =>
        n % 100 === 99 ? { kind: 'undone', event: `e${n - 1}` } : { kind: 'thrown', picks: 1 },
    );
    const plan = planOf({ pieces: [pieceOf([solid('A', 10_000)])] });
    const rows = rowsOf(logged(slips), plan);
    expect(rows).toHaveLength(10_000);
    expect(rows.at(-1)?.[5]).toBe('9800');
  });

  it('of a demo warp uses its own words for what was due', () => {
    const log = logged([{ kind: 'dueDone', due: '0/tail' }]);
    expect(rowsOf(log, demo('moss-and-chalk') as Plan)[0]?.[3]).toMatch(/^Done: leave a tail of /);
  });
});
