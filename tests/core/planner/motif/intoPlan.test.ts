import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recogniseBlocks } from '../../../../src/core/bench/byEye/recogniseBlocks.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import { type Motif, motifLength } from '../../../../src/core/plan/motif.ts';
import { weftRoom, withMotif } from '../../../../src/core/planner/motif/intoPlan.ts';
import { newPlan } from '../../../../src/core/planner/newPlan.ts';
import { sheetOf } from '../../../../src/core/planner/sheet.ts';
import { alternation, pieceOf, planOf, solid, yarns } from '../../plan/samples.ts';

const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;
const yarn = (letter: string, pickSpacing: number) => ({
  letter,
  name: `yarn ${letter}`,
  colour: '#5d7043',
  count: { system: 'cottonCount', number: 8, plies: 4 } as const,
  pickSpacing,
});
const motif = (blocks: Motif['blocks']): Motif => ({
  id: 'm',
  name: 'Border',
  madeAt: '2026-03-04T05:06:07.000Z',
  yarns: [yarn('A', 2.54), yarn('B', 2), yarn('C', 2)],
  endsPerMm: 0.5,
  warp: [{ kind: 'solid', yarn: 'A', ends: 40 }],
  blocks,
});
const BORDER = motif([solid('B', 8), alternation('C2 B2', turns(3))]);
const PLAN = planOf({ yarns: yarns('AB'), pieces: [pieceOf([solid('A', 20)])] });
const here = (letters: readonly (readonly [string, string | null])[], how: 'after' | 'through') =>
  withMotif(PLAN, 0, BORDER, { letters: new Map(letters), by: 'picks', how });

describe('a motif put into a plan', () => {
  it('stands behind the blocks, under its name, in the yarns it was given', () => {
    const plan = here(
      [
        ['B', 'A'],
        ['C', 'B'],
      ],
      'after',
    );
    expect(plan?.pieces[0]?.weft).toEqual([
      solid('A', 20),
      {
        kind: 'repeat',
        name: 'Border',
        times: 1,
        of: [solid('A', 8), alternation('B2 A2', turns(3))],
      },
    ]);
    expect(plan?.yarns).toEqual(PLAN.yarns);
  });

  it('brings a yarn along that the plan has not got, with its beat', () => {
    const plan = here(
      [
        ['B', 'B'],
        ['C', null],
      ],
      'after',
    );
    expect(plan?.yarns.map((it) => it.letter)).toEqual(['A', 'B', 'C']);
    expect(plan?.yarns[2]).toMatchObject({ name: 'yarn C', pickSpacing: 2 });
    expect(checkPlan(plan)).toMatchObject({ ok: true });
  });

  it('through a piece fills what was planned, where nothing is wished', () => {
    // 20 picks of 2.54 mm are 50.8 mm; once it is 14 picks, 35.6 mm, and its first stripe is 20.3 mm.
    expect(weftRoom(PLAN, 0)).toBeCloseTo(50.8, 6);
    const plan = here(
      [
        ['B', 'A'],
        ['C', 'B'],
      ],
      'through',
    );
    expect(plan?.pieces[0]?.weft).toEqual([solid('A', 8), alternation('B2 A2', turns(3))]);
  });

  it('is refused where there is no such piece', () => {
    expect(
      withMotif(PLAN, 3, BORDER, { letters: new Map(), by: 'picks', how: 'after' }),
    ).toBeNull();
  });

  it('law: the plan stays sound, and through a piece it comes near the wish and not beyond it', () => {
    const anyMotif = fc
      .array(
        fc.record({ of: fc.constantFrom('A', 'B', 'C'), count: fc.integer({ min: 1, max: 9 }) }),
        { minLength: 1, maxLength: 9 },
      )
      .map((record) => motif(recogniseBlocks(record)));
    const how = fc.constantFrom('after' as const, 'through' as const);
    const by = fc.constantFrom('picks' as const, 'length' as const);
    fc.assert(
      fc.property(anyMotif, how, by, fc.constantFrom('inch', 'metric'), (it, way, kept, units) => {
        const base = newPlan(units as 'inch' | 'metric', 'rigid-heddle');
        const letters = new Map([
          ['A', 'A'],
          ['B', null],
          ['C', null],
        ]);
        const plan = withMotif(base, 0, it, { letters, by: kept, how: way });
        expect(checkPlan(plan)).toMatchObject({ ok: true });
        if (plan === null || way === 'after') return;
        const miss = sheetOf(plan).pieces[0]?.wish?.miss ?? Number.NaN;
        // Washing leaves less of a loom length, never more. Hems are whole picks, 2 mm either way.
        expect(miss).toBeLessThan(6);
        expect(miss).toBeGreaterThan(-2 * motifLength(it) * 1.6 - 30);
      }),
      { numRuns: 200 },
    );
  });
});
