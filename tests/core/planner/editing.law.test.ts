import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import { tallyWeft, weftOfPiece } from '../../../src/core/bench/left/weftTally.ts';
import { checkDraft, checkPlan } from '../../../src/core/plan/checkPlan.ts';
import type { Block, Piece, Plan, Weaving, Yarn } from '../../../src/core/plan/plan.ts';
import { readingsOf } from '../../../src/core/planner/reads.ts';
import { edgeWarnings } from '../../../src/core/planner/sheet/warnings.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import { anyPlan, blockOf } from '../bench/arbitraries.ts';
import { anyOrder } from './orders.ts';

type Edit = (plan: Plan) => Plan;

const typed = (share: number) => ({ share, from: { kind: 'typed' as const } });

function weaving(change: Partial<Weaving>): Edit {
  return (plan) => ({ ...plan, weaving: { ...plan.weaving, ...change } });
}

/** Changes one row of a list as the screens do: all the others stay the objects they are. */
function withOne<T>(list: readonly T[], n: number, change: (it: T) => T): readonly T[] {
  return list.map((it, i) => (i === n % list.length ? change(it) : it));
}

const piece = (n: number, change: (it: Piece) => Piece): Edit => {
  return (plan) => ({ ...plan, pieces: withOne(plan.pieces, n, change) });
};
const yarn = (n: number, change: Partial<Yarn>): Edit => {
  return (plan) => ({ ...plan, yarns: withOne(plan.yarns, n, (it) => ({ ...it, ...change })) });
};

const nth = fc.nat(20);
const letters = ['A', 'B'];
const edge = fc.oneof(
  fc.record({
    kind: fc.constant('hemstitch' as const),
    fringe: fc.constantFrom(0, 30),
    twisted: fc.boolean(),
  }),
  fc.record({
    kind: fc.constantFrom('hem' as const, 'plain' as const),
    washedAllowance: fc.constantFrom(0, 8),
  }),
);
const wish = fc.record({
  state: fc.constantFrom('loom' as const, 'washed' as const, 'finished' as const),
  length: fc.constantFrom(100, 200),
});

const ofPieces: fc.Arbitrary<Edit> = fc.oneof(
  fc
    .tuple(nth, fc.array(blockOf(letters), { minLength: 1, maxLength: 2 }))
    .map(([n, weft]) => piece(n, (it) => ({ ...it, weft }))),
  fc.tuple(nth, edge).map(([n, ending]) => piece(n, (it) => ({ ...it, ending }))),
  fc.tuple(nth, wish).map(([n, it]) => piece(n, (old) => ({ ...old, wish: it }))),
  fc.tuple(nth, fc.string()).map(([n, name]) => piece(n, (it) => ({ ...it, name }))),
  // One more like it, but for one thing, or the very same object: it then lies in two places.
  fc
    .tuple(
      nth,
      fc.oneof(fc.constant({}), fc.record({ ending: edge }), fc.record({ beginning: edge })),
    )
    .map(([n, change]) => (plan: Plan) => {
      const [it] = plan.pieces.slice(n % plan.pieces.length);
      if (it === undefined) return plan;
      const like = Object.keys(change).length === 0 ? it : { ...it, ...change };
      return { ...plan, pieces: [...plan.pieces, like].slice(-4) };
    }),
  fc.constant((plan: Plan) => ({ ...plan, pieces: plan.pieces.toReversed() })),
);

const ofTheRest: fc.Arbitrary<Edit> = fc.oneof(
  fc.constantFrom(1, 1.5, 2.54).map((pickSpacing) => weaving({ pickSpacing })),
  fc.constantFrom(0, 10, 25).map((carryLimit) => weaving({ carryLimit })),
  fc.constantFrom('left' as const, 'right' as const).map((workingSide) => weaving({ workingSide })),
  fc.constantFrom('left' as const, 'right' as const).map((hand) => weaving({ hand })),
  fc.tuple(nth, fc.constantFrom('#102030', '#d0c0b0')).map(([n, colour]) => yarn(n, { colour })),
  fc.tuple(nth, fc.constantFrom(1, 3)).map(([n, pickSpacing]) => yarn(n, { pickSpacing })),
  fc.tuple(nth, fc.constantFrom('A', 'Z')).map(([n, letter]) => yarn(n, { letter })),
  anyOrder(letters).map(
    (order): Edit =>
      (plan) => ({ ...plan, warp: { ...plan.warp, order } }),
  ),
  fc.constantFrom(0, 0.05, 0.3, 7).map(
    (share): Edit =>
      (plan) => ({ ...plan, allowances: { ...plan.allowances, shrinkLength: typed(share) } }),
  ),
  fc.constantFrom('rigid-heddle' as const, 'shaft' as const).map(
    (kind): Edit =>
      (plan) => ({ ...plan, loom: { ...plan.loom, kind } }),
  ),
  fc.constantFrom(5, 12.5).map(
    (count): Edit =>
      (plan) => ({ ...plan, loom: { ...plan.loom, dents: { count, per: 'inch' } } }),
  ),
);

/** Every state a plan goes through, some of them no plan; every now and then back to an earlier one. */
const edited: fc.Arbitrary<readonly Plan[]> = fc
  .record({
    plan: anyPlan,
    edits: fc.array(
      fc.oneof({ weight: 3, arbitrary: ofPieces }, { weight: 3, arbitrary: ofTheRest }, nth),
      { minLength: 1, maxLength: 12 },
    ),
  })
  .map(({ plan, edits }) => {
    const states = [plan];
    for (const edit of edits) {
      const now = states[states.length - 1] ?? plan;
      states.push(typeof edit === 'number' ? (states[edit % states.length] ?? now) : edit(now));
    }
    return states;
  });

describe('a plan edited again and again', () => {
  it('is found right or wrong as if it were read for the first time', () => {
    fc.assert(
      fc.property(edited, (states) => {
        for (const plan of states) expect(checkDraft(plan)).toEqual(checkPlan(plan));
      }),
    );
  });

  it('is found nested too deep wherever a plan read from a file is', () => {
    const nested = (levels: number) => {
      const solid = { kind: 'solid', yarn: 'A', extent: { kind: 'picks', picks: 2 } } as const;
      let block: Block = solid;
      for (let level = 0; level < levels; level++)
        block = { kind: 'repeat', times: 1, of: [block] };
      return block;
    };
    fc.assert(
      fc.property(anyPlan, fc.integer({ min: 10, max: 24 }), nth, (plan, levels, n) => {
        const deep = piece(n, (it) => ({ ...it, weft: [nested(levels)] }))(plan);
        expect(checkDraft(deep)).toEqual(checkPlan(deep));
      }),
    );
  });

  it('comes to what it would come to if nothing were remembered of it', () => {
    fc.assert(
      fc.property(edited, (states) => {
        for (const state of states) {
          const checked = checkDraft(state);
          if (!checked.ok) continue;
          const fresh = structuredClone(checked.value);
          expect(sheetOf(checked.value)).toEqual(sheetOf(fresh));
          expect(readingsOf(checked.value)).toEqual(readingsOf(fresh));
        }
      }),
    );
  });

  it('keeps every part that was found right and has not changed as the object it was', () => {
    fc.assert(
      fc.property(anyPlan, nth, (plan, n) => {
        const before = checkDraft(plan);
        const after = checkDraft(piece(n, (it) => ({ ...it, name: 'Another' }))(plan));
        if (!before.ok || !after.ok) throw new Error('wanted two plans');
        for (const part of ['loom', 'yarns', 'warp', 'weaving', 'allowances'] as const)
          expect(after.value[part]).toBe(before.value[part]);
        const same = after.value.pieces.filter((it, i) => it === before.value.pieces[i]);
        expect(same).toHaveLength(plan.pieces.length - 1);
      }),
    );
  });
});

const pathIn = (piece: number, path: string) => path.replace('pieces[0]', `pieces[${piece}]`);

function pieceAt({ pieces }: Plan, index: number): Piece {
  const it = pieces[index];
  if (it === undefined) throw new Error(`no piece ${index}`);
  return it;
}

it('piece by piece, and pieces alike only once, a plan comes to what its whole course says', () => {
  fc.assert(
    fc.property(edited, (states) => {
      for (const state of states) {
        const checked = checkDraft(state);
        if (!checked.ok) continue;
        const course = layCourse(checked.value, NO_ADJUSTMENTS);
        const tally = tallyWeft(course);
        const { pieces, warnings } = sheetOf(checked.value);
        expect(warnings).toEqual(edgeWarnings(course));
        const readings = readingsOf(checked.value);
        for (const it of course.pieces) {
          const alone = { ...checked.value, pieces: [pieceAt(checked.value, it.index)] };
          expect(readings.filter(({ piece }) => piece === it.index)).toEqual(
            readingsOf(alone)
              .filter(({ piece }) => piece === 0)
              .map((one) => ({ ...one, piece: it.index, path: pathIn(it.index, one.path) })),
          );
          const { picks, loomLength, gapAfter, stripes } = it;
          const { weft, ...sheet } = pieces[it.index] ?? { weft: [] };
          expect(sheet).toMatchObject({ picks, loomLength, gapAfter, stripes });
          for (const [i, use] of weftOfPiece(tally, it).entries())
            expect(weft[i]?.length).toBeCloseTo(use.length, 6);
        }
      }
    }),
  );
});
