import { describe, expect, it } from 'vitest';
import {
  type ClothKind,
  clothKindOf,
  type Likeness,
  likenessOf,
} from '../../../src/core/learn/clothKind.ts';
import { allowancesFrom, knowledgeOf } from '../../../src/core/learn/knowledge.ts';
import {
  decodeLearntWarp,
  type LearntPiece,
  type LearntWarp,
} from '../../../src/core/learn/learntWarp.ts';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { newPlan } from '../../../src/core/planner/newPlan.ts';
import { planOf, solid, yarns } from '../plan/samples.ts';

const CLOTH: ClothKind = {
  warp: [{ fibre: 'cotton', tex: 147.6 }],
  weft: [{ fibre: 'cotton', tex: 147.6 }],
  sett: 0.492,
  weave: 'plain',
  loom: { kind: 'rigid-heddle', name: 'The small loom' },
};

const share = (of: number) => ({ share: of, error: 0.002 });
const piece = (shares: LearntPiece['shares'], counts: 'in' | 'out' = 'in'): LearntPiece => ({
  name: 'Towel',
  counts,
  shares,
  picks: 300,
});

function warpOf(pieces: readonly LearntPiece[], changes: Partial<LearntWarp> = {}): LearntWarp {
  return { version: 1, warp: 'w', name: 'Towels', cloth: CLOTH, pieces, ...changes };
}

const SHRUNK = [0.07, 0.08, 0.09].map((it) =>
  piece({ shrinkLength: share(it), relax: share(0.02) }),
);
const usual = newPlan('inch', 'rigid-heddle').allowances;

describe('what a cloth is', () => {
  it('is the yarns of warp and weft by fibre and thickness, the sett, the weave and the loom', () => {
    const [a, b] = yarns('AB');
    const plan = planOf({
      yarns: [
        { ...a, fibre: 'cotton' } as Plan['yarns'][number],
        { ...b, fibre: 'cotton', name: 'another colour' } as Plan['yarns'][number],
      ],
      pieces: [{ ...planOf({}).pieces[0], weft: [solid('B', 4)] } as Plan['pieces'][number]],
    });
    const cloth = clothKindOf(plan);
    // Two colours of one yarn are one kind: 8/4 cotton is 295.27 tex.
    expect(cloth.warp).toEqual([{ fibre: 'cotton', tex: expect.closeTo(295.27, 2) }]);
    expect(cloth.weft).toEqual(cloth.warp);
    expect(cloth.sett).toBeCloseTo(12.5 / 25.4, 12);
    expect(cloth.loom).toEqual({ kind: 'rigid-heddle' });
  });

  it.each<[string, Partial<ClothKind>, Likeness]>([
    ['itself', {}, 'same'],
    ['a heddle counted a little otherwise', { sett: 0.5 }, 'same'],
    ['a sett a twelfth closer', { sett: 0.533 }, 'near'],
    ['a sett half as close again', { sett: 0.74 }, 'other'],
    ['the other loom', { loom: { kind: 'rigid-heddle', name: 'The wide loom' } }, 'near-cloth'],
    ['a loom with shafts', { loom: { kind: 'shaft', name: 'The small loom' } }, 'near-cloth'],
    ['a weft a little thicker', { weft: [{ fibre: 'cotton', tex: 155 }] }, 'near'],
    ['a weft twice as thick', { weft: [{ fibre: 'cotton', tex: 295 }] }, 'other'],
    ['a weft of linen', { weft: [{ fibre: 'linen', tex: 147.6 }] }, 'other'],
    ['a fibre not said', { warp: [{ tex: 147.6 }] }, 'other'],
    [
      'a second yarn in the weft',
      {
        weft: [
          { fibre: 'cotton', tex: 147.6 },
          { fibre: 'linen', tex: 100 },
        ],
      },
      'other',
    ],
  ])('against %s it is told how much alike they are', (_, change, likeness) => {
    expect(likenessOf(CLOTH, { ...CLOTH, ...change })).toBe(likeness);
    expect(likenessOf({ ...CLOTH, ...change }, CLOTH)).toBe(likeness);
  });
});

describe('what is known', () => {
  it('comes from the same cloth alone where there is any', () => {
    const near = warpOf([piece({ shrinkLength: share(0.2) })], {
      warp: 'n',
      cloth: { ...CLOTH, sett: 0.533 },
    });
    const known = knowledgeOf(CLOTH, [near, warpOf(SHRUNK)]);
    expect(known?.match).toBe('same');
    expect(known?.shares.shrinkLength).toMatchObject({ share: expect.closeTo(0.08, 9), pieces: 3 });
  });

  it('from cloth near it is a guide, less sure by one part in a hundred', () => {
    const near = warpOf(SHRUNK, { cloth: { ...CLOTH, sett: 0.533 } });
    const [same, guide] = [knowledgeOf(CLOTH, [warpOf(SHRUNK)]), knowledgeOf(CLOTH, [near])];
    expect(guide?.match).toBe('near');
    const spreads = [same, guide].map((it) => it?.shares.shrinkLength?.spread ?? Number.NaN);
    expect(spreads[1]).toBeCloseTo(Math.hypot(spreads[0] ?? 0, 0.01), 12);
  });

  it('from another loom only the shrinkages carry over', () => {
    const other = warpOf(SHRUNK, {
      cloth: { ...CLOTH, loom: { kind: 'shaft' } },
      warpTaken: share(0.1),
    });
    expect(Object.keys(knowledgeOf(CLOTH, [other])?.shares ?? {})).toEqual(['shrinkLength']);
  });

  it('is nothing where nothing alike was measured', () => {
    expect(knowledgeOf({ ...CLOTH, sett: 1 }, [warpOf(SHRUNK)])).toBeNull();
    expect(knowledgeOf(CLOTH, [])).toBeNull();
  });

  it('leaves out the pieces that were left out, and a warp taken with all of its pieces', () => {
    const [first, ...others] = SHRUNK;
    const out = { ...first, counts: 'out' } as LearntPiece;
    expect(knowledgeOf(CLOTH, [warpOf([out, ...others])])?.shares.shrinkLength?.pieces).toBe(2);
    const allOut = SHRUNK.map((it) => ({ ...it, counts: 'out' as const }));
    expect(knowledgeOf(CLOTH, [warpOf(allOut, { warpTaken: share(0.1) })])).toBeNull();
  });
});

describe('the allowances of the next plan', () => {
  const known = knowledgeOf(CLOTH, [warpOf(SHRUNK, { warpTaken: share(0.12) })]);

  it('start from what was learnt and say from how many pieces', () => {
    const { shrinkLength, warpTaken } = allowancesFrom(known, usual, usual);
    expect(shrinkLength).toEqual({
      share: expect.closeTo(0.08, 9),
      from: { kind: 'washed', pieces: 3, warps: 1, spread: expect.closeTo(0.0133, 3) },
    });
    expect(warpTaken).toMatchObject({ share: 0.12, from: { pieces: 1, warps: 1 } });
  });

  it('keep what is usual where nothing was learnt, and what the weaver typed in any case', () => {
    const typed = { share: 0.2, from: { kind: 'typed' } } as const;
    const it = allowancesFrom(known, { ...usual, shrinkLength: typed }, usual);
    expect(it.shrinkLength).toBe(typed);
    expect(it.drawIn).toBe(usual.drawIn);
  });

  it('go back to what is usual when the yarn is changed for an unknown one', () => {
    expect(allowancesFrom(null, allowancesFrom(known, usual, usual), usual)).toEqual(usual);
  });

  it('a washed length without one off the loom is laid to the shrinkage, so that both come to it', () => {
    const whole = knowledgeOf(CLOTH, [warpOf([piece({ lengthLoss: share(0.1) })])]);
    const { relax, shrinkLength } = allowancesFrom(whole, usual, usual);
    expect(relax).toBe(usual.relax);
    expect((1 - relax.share) * (1 - shrinkLength.share)).toBeCloseTo(0.9, 12);
    expect(shrinkLength.from).toMatchObject({ kind: 'washed', pieces: 1 });
  });

  it('a washed width is met by draw-in and shrinkage together', () => {
    const all = piece({ drawIn: share(0.06), shrinkWidth: share(0.07), widthLoss: share(0.15) });
    const { drawIn, shrinkWidth } = allowancesFrom(
      knowledgeOf(CLOTH, [warpOf([all])]),
      usual,
      usual,
    );
    expect(drawIn.share).toBeCloseTo(0.06, 12);
    expect((1 - drawIn.share) * (1 - shrinkWidth.share)).toBeCloseTo(0.85, 12);
  });

  it('never make a plan that is none', () => {
    const odd = piece({
      drawIn: share(-0.02),
      relax: share(-0.14),
      shrinkLength: share(-0.15),
      widthLoss: share(0.5),
      weftExtra: share(-0.02),
      twist: share(-0.05),
    });
    const oddly = knowledgeOf(CLOTH, [warpOf([odd], { warpTaken: share(-0.04) })]);
    const plan = newPlan('inch', 'rigid-heddle');
    const changed = { ...plan, allowances: allowancesFrom(oddly, usual, usual) };
    expect(checkPlan(changed).ok).toBe(true);
  });
});

describe('a warp kept for what it taught', () => {
  const kept = warpOf([...SHRUNK, { ...piece({}), loomLength: { mm: 700, sd: 3 } }], {
    warpTaken: share(0.12),
  });

  it('reads back from JSON as it was', () => {
    const read = decodeLearntWarp(JSON.parse(JSON.stringify(kept)));
    expect(read).toEqual({ ok: true, value: kept });
  });

  it.each<[string, unknown, string, string]>([
    ['nothing at all', null, '', 'wrong-type'],
    ['a later version', { ...kept, version: 2 }, 'version', 'not-one-of'],
    [
      'a weave we do not know',
      { ...kept, cloth: { ...CLOTH, weave: 'satin' } },
      'cloth.weave',
      'not-one-of',
    ],
    ['no pieces', { ...kept, pieces: [] }, 'pieces', 'too-short'],
    [
      'a share beyond the whole',
      { ...kept, pieces: [piece({ relax: { share: 3, error: 0 } })] },
      'pieces[0].shares.relax.share',
      'too-big',
    ],
    ['a field of its own', { ...kept, colour: 'red' }, 'colour', 'unknown-field'],
  ])('is refused for %s, by the name of the field', (_, input, path, code) => {
    const read = decodeLearntWarp(input);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.problem[0]).toMatchObject({ path, code });
  });
});
