import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recogniseBlocks } from '../../../../src/core/bench/byEye/recogniseBlocks.ts';
import { mergeRuns, mirrorRuns, type Runs, totalOf } from '../../../../src/core/measure/runs.ts';
import { layWeft, picksOf, plannedLengthOf, turnOf } from '../../../../src/core/plan/blocks.ts';
import { checkPlan } from '../../../../src/core/plan/checkPlan.ts';
import {
  decodeMotif,
  type Motif,
  motifLength,
  planOfMotif,
} from '../../../../src/core/plan/motif.ts';
import { formatBlocks } from '../../../../src/core/plan/orderText.ts';
import type { Letter } from '../../../../src/core/plan/plan.ts';
import {
  atBeat,
  atSett,
  blocksIn,
  inYarn,
  mirroredMotif,
  onGround,
  spacingLike,
  stripesOfMotif,
  swapped,
  weftLetters,
} from '../../../../src/core/planner/motif/changes.ts';
import { planFromMotif, repeatsWithin } from '../../../../src/core/planner/motif/repeats.ts';
import { alternation, solid } from '../../plan/samples.ts';

const COUNT = { system: 'cottonCount', number: 8, plies: 4 } as const;
const yarn = (letter: string, colour: string, pickSpacing: number) => ({
  letter,
  name: `yarn ${letter}`,
  colour,
  count: COUNT,
  pickSpacing,
});
const motif = (blocks: Motif['blocks']): Motif => ({
  id: 'm',
  name: 'Border',
  madeAt: '2026-03-04T05:06:07.000Z',
  yarns: [yarn('A', '#5d7043', 2.5), yarn('B', '#efe6d2', 2), yarn('C', '#b4552d', 2)],
  endsPerMm: 0.5,
  warp: [{ kind: 'solid', yarn: 'A', ends: 40 }],
  blocks,
});
const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;
const BORDER = motif([solid('A', 8), alternation('B2 A2', turns(3)), solid('C', 6)]);
/** `A8 B2 …` */
const said = (it: Motif) =>
  stripesOfMotif(it)
    .map((run) => `${run.of}${run.count}`)
    .join(' ');

const anyMotif: fc.Arbitrary<Motif> = fc
  .array(
    fc.record({ of: fc.constantFrom('A', 'B', 'C'), count: fc.integer({ min: 1, max: 12 }) }),
    { minLength: 1, maxLength: 12 },
  )
  .map((record) => motif(recogniseBlocks(record)));

describe('a motif changed', () => {
  it('mirrored: its last stripe once, or twice as long', () => {
    expect(said(mirroredMotif(BORDER, 'shared'))).toBe('A8 B2 A2 B2 C6 B2 A2 B2 A8');
    expect(said(mirroredMotif(BORDER, 'doubled'))).toBe('A8 B2 A2 B2 C12 B2 A2 B2 A8');
  });

  it('with two yarns in each other’s place', () => {
    expect(said(swapped(BORDER, 'A', 'C'))).toBe('C8 B2 C2 B2 A6');
  });

  it('in other letters; where two become one their stripes melt', () => {
    const letters = (...pairs: [Letter, Letter][]) => blocksIn(BORDER, new Map(pairs));
    expect(letters(['A', 'D'], ['C', 'A'])).toEqual([
      solid('D', 8),
      alternation('B2 D2', turns(3)),
      solid('A', 6),
    ]);
    expect(letters(['B', 'A'])).toEqual([solid('A', 14), solid('C', 6)]);
  });

  it('by picks keeps them, whatever the beat', () => {
    const thin = inYarn(BORDER, 'A', yarn('', '#000000', 1), 'picks');
    expect(said(thin)).toBe(said(BORDER));
    expect(thin.yarns[0]).toMatchObject({ letter: 'A', colour: '#000000', pickSpacing: 1 });
    expect(motifLength(thin)).toBeCloseTo(10 * 1 + 10 * 2, 9);
  });

  it('by length: A 8 of 2.5 mm are 20 of 1 mm, an odd number stays odd, an alternation its whole turns', () => {
    // B2 A2 B2 are 13 mm: with A at 1 mm three turns are 10 mm, five are 16: ties go down.
    expect(said(inYarn(BORDER, 'A', yarn('', '#000000', 1), 'length'))).toBe('A20 B2 A2 B2 C6');
    // 5 picks of 2.5 mm are 12.5 picks of 1 mm: 13 is the nearest odd number.
    const odd = motif([solid('A', 5)]);
    expect(said(inYarn(odd, 'A', yarn('', '#000000', 1), 'length'))).toBe('A13');
    // 3 turns B2 A2 B2 are 13 mm; at half the beat 5 turns are 11 mm, 7 are 15 mm: ties go down.
    expect(said(atBeat(BORDER, 0.5, 'length'))).toBe('A16 B2 A2 B2 A2 B2 C12');
  });

  it('at another sett: the picks lie closer as the ends do', () => {
    const closer = atSett(BORDER, 1, 'picks');
    expect(closer.endsPerMm).toBe(1);
    expect(closer.yarns.map((it) => it.pickSpacing)).toEqual([1.25, 1, 1]);
    expect(said(closer)).toBe(said(BORDER));
    expect(said(atSett(BORDER, 1, 'length'))).toBe('A16 B2 A2 B2 A2 B2 C12');
  });

  it('on another warp: in its letters, at its beat, by picks or by length', () => {
    const letters = new Map([
      ['A', 'X'],
      ['B', 'Y'],
      ['C', 'X'],
    ]);
    const ground = {
      yarns: [yarn('X', '#000000', 1.25), yarn('Y', '#ffffff', 2)],
      warp: [{ kind: 'solid', yarn: 'X', ends: 60 }],
      endsPerMm: 1,
    } as const;
    const runs = (by: 'picks' | 'length') =>
      formatBlocks(onGround(BORDER, ground, letters, by).blocks, 'metric');
    // A and C are one yarn now, and what melts together is told anew.
    expect(runs('picks')).toBe('8 picks X, 3 turns of (2 Y, 2 X), 6 picks X');
    // A 8 of 2.5 mm are 16 of 1.25; C 6 of 2 mm are 9.6, an even number again: 10. The alternation
    // was 13 mm: 3 turns are 10.5 mm now, 5 are 17.
    expect(runs('length')).toBe('16 picks X, 3 turns of (2 Y, 2 X), 10 picks X');
    expect(decodeMotif(onGround(BORDER, ground, letters, 'length'))).toMatchObject({ ok: true });
  });

  it('in a yarn twice as heavy the picks lie √2 further apart', () => {
    const [a] = BORDER.yarns;
    if (a === undefined) throw new Error('wanted a yarn');
    expect(spacingLike(a, COUNT)).toBe(2.5);
    expect(spacingLike(a, { ...COUNT, plies: 8 })).toBeCloseTo(2.5 * Math.SQRT2, 9);
  });

  it('names the yarns of its weft', () => {
    expect(weftLetters(motif([solid('C', 2), solid('A', 2)]))).toEqual(['A', 'C']);
  });

  it('through a piece: as many whole ones as it holds, closed with its first stripe', () => {
    // Once it is 10 × 2.5 + 10 × 2 = 45 mm; the first stripe is 20 mm.
    expect(motifLength(BORDER)).toBeCloseTo(45, 9);
    expect(repeatsWithin(BORDER, 155, 'asBegun')).toEqual({
      times: 3,
      blocks: [{ kind: 'repeat', name: 'Border', times: 3, of: BORDER.blocks }, solid('A', 8)],
      loomLength: expect.closeTo(155, 9),
    });
    expect(repeatsWithin(BORDER, 154, 'asBegun')?.times).toBe(2);
    expect(repeatsWithin(BORDER, 180, 'open')?.times).toBe(4);
    expect(repeatsWithin(BORDER, 65, 'asBegun')?.blocks).toEqual([...BORDER.blocks, solid('A', 8)]);
    expect(repeatsWithin(BORDER, 64, 'asBegun')).toBeNull();
  });

  it.each([
    ['metric', 'rigid-heddle'],
    ['inch', 'shaft'],
  ] as const)('becomes a sound plan, %s, %s', (units, loom) => {
    const plan = planFromMotif(BORDER, units, loom);
    expect(checkPlan(plan)).toMatchObject({ ok: true });
    expect(plan.pieces[0]?.weft[0]).toMatchObject({ kind: 'repeat', of: BORDER.blocks });
    expect(plan.yarns.map((it) => it.pickSpacing)).toEqual([2.5, 2, 2]);
  });
});

describe('laws of motifs', () => {
  const numRuns = 300;

  it('every change is a motif again', () => {
    fc.assert(
      fc.property(anyMotif, fc.double({ min: 0.4, max: 2.5, noNaN: true }), (it, factor) => {
        const changes = [
          mirroredMotif(it, 'shared'),
          swapped(it, 'A', 'B'),
          atBeat(it, factor, 'length'),
          atBeat(it, factor, 'picks'),
        ];
        for (const changed of changes)
          expect(decodeMotif(changed)).toEqual({ ok: true, value: changed });
        expect(checkPlan(planFromMotif(it, 'metric', 'rigid-heddle'))).toMatchObject({ ok: true });
      }),
      { numRuns: 100 },
    );
  });

  it('a mirror is its stripes there and back', () => {
    fc.assert(
      fc.property(anyMotif, fc.constantFrom('shared', 'doubled'), (it, centre) => {
        const stripes = mirroredMotif(it, centre as 'shared' | 'doubled');
        // A motif that is one mirror already is left as it is.
        const isMirror = it.blocks.length === 1 && it.blocks[0]?.kind === 'mirror';
        const wanted = isMirror
          ? stripesOfMotif(it)
          : mirrorRuns(stripesOfMotif(it), centre as 'shared' | 'doubled');
        expect(stripesOfMotif(stripes)).toEqual(wanted);
      }),
      { numRuns },
    );
  });

  it('other letters are the same picks in the other letters', () => {
    const letter = fc.constantFrom('A', 'B', 'C', 'D');
    fc.assert(
      fc.property(anyMotif, fc.tuple(letter, letter, letter), (it, [a, b, c]) => {
        const to = new Map([
          ['A', a],
          ['B', b],
          ['C', c],
        ]);
        const there = {
          ...it,
          yarns: [...it.yarns, yarn('D', '#333333', 2)],
          blocks: blocksIn(it, to),
        };
        const renamed: Runs<Letter> = stripesOfMotif(it).map(({ of, count }) => ({
          of: to.get(of) ?? of,
          count,
        }));
        expect(stripesOfMotif(there)).toEqual(mergeRuns(renamed));
      }),
      { numRuns },
    );
  });

  it('by length no block strays by more than it must: a solid by a pick, an alternation by a period', () => {
    fc.assert(
      fc.property(anyMotif, fc.double({ min: 0.4, max: 1, noNaN: true }), (it, factor) => {
        const [was, is] = [it, atBeat(it, factor, 'length')].map((one) =>
          layWeft(planOfMotif(one), 0),
        );
        for (const [i, before] of (was ?? []).entries()) {
          const after = is?.[i];
          if (after === undefined || after.source !== before.source || before.mirrored) continue;
          const last = (laid: typeof after) => turnOf(laid, laid.turns - 1).yarn;
          expect(last(after)).toBe(last(before));
          const step = Math.max(...after.spacings);
          if (after.role === 'solid') expect(picksOf(after) % 2).toBe(picksOf(before) % 2);
          const period =
            after.role === 'solid'
              ? step
              : after.period.picks.reduce((sum, n) => sum + n * step, 0);
          const miss = Math.abs(plannedLengthOf(after) - plannedLengthOf(before));
          expect(miss).toBeLessThanOrEqual(period + 1e-6);
        }
      }),
      { numRuns },
    );
  });

  it('on its own warp by length it stays what it is, and by picks it always does', () => {
    fc.assert(
      fc.property(anyMotif, fc.double({ min: 0.4, max: 2.5, noNaN: true }), (it, factor) => {
        const own = (letter: Letter) =>
          it.yarns.find((one) => one.letter === letter)?.pickSpacing ?? 1;
        const spaced = (by: number) => ({
          ...it,
          yarns: it.yarns.map((one) => ({ ...one, pickSpacing: by * own(one.letter) })),
        });
        const there = (by: number, kept: 'picks' | 'length') =>
          stripesOfMotif(onGround(it, spaced(by), new Map(), kept));
        expect(there(1, 'length')).toEqual(stripesOfMotif(it));
        expect(there(factor, 'picks')).toEqual(stripesOfMotif(it));
      }),
      { numRuns },
    );
  });

  it('through a piece there is no room for one more', () => {
    const end = fc.constantFrom('asBegun' as const, 'open' as const);
    fc.assert(
      fc.property(anyMotif, fc.integer({ min: 1, max: 2000 }), end, (it, length, how) => {
        const repeats = repeatsWithin(it, length, how);
        const once = motifLength(it);
        const [first] = stripesOfMotif(it);
        const spacing = it.yarns.find((one) => one.letter === first?.of)?.pickSpacing ?? 0;
        const closing = how === 'asBegun' ? (first?.count ?? 0) * spacing : 0;
        expect(once * ((repeats?.times ?? 0) + 1) + closing).toBeGreaterThan(length - 1e-6);
        if (repeats === null) return;
        expect(repeats.loomLength).toBeLessThanOrEqual(length + 1e-6);
        const laid = layWeft(planOfMotif({ ...it, blocks: repeats.blocks }), 0);
        expect(laid.reduce((sum, one) => sum + plannedLengthOf(one), 0)).toBeCloseTo(
          repeats.loomLength,
          6,
        );
        const picks = totalOf(stripesOfMotif(it)) * repeats.times;
        const more = how === 'asBegun' ? (first?.count ?? 0) : 0;
        expect(laid.reduce((sum, one) => sum + picksOf(one), 0)).toBe(picks + more);
      }),
      { numRuns },
    );
  });
});
