/** Plans with parts to weave by eye, and what may happen at their loom. */
import fc from 'fast-check';
import type { Happening } from '../../../../src/core/bench/events.ts';
import type { Block, FreeBlock, Piece, Plan } from '../../../../src/core/plan/plan.ts';
import { checked } from '../../plan/samples.ts';
import { anyPlan, happening } from '../arbitraries.ts';

const free: fc.Arbitrary<FreeBlock> = fc.oneof(
  fc.constant<FreeBlock>({ kind: 'free' }),
  fc.integer({ min: 5, max: 60 }).map((loomLength): FreeBlock => ({ kind: 'free', loomLength })),
);

/** The blocks of a piece with a free part put in somewhere, or nothing but one. */
function withFree(weft: readonly Block[]): fc.Arbitrary<readonly Block[]> {
  const somewhere = fc
    .tuple(free, fc.nat(weft.length))
    .map(([block, at]) => [...weft.slice(0, at), block, ...weft.slice(at)]);
  return fc.oneof(
    somewhere,
    free.map((block) => [block]),
    fc.constant(weft),
  );
}

/** A checked plan some pieces of which are woven by eye, in part or wholly. */
export const anyFreePlan: fc.Arbitrary<Plan> = anyPlan.chain((plan) =>
  fc
    .tuple(
      ...plan.pieces.map((piece) =>
        withFree(piece.weft).map((weft): Piece => ({ ...piece, weft })),
      ),
    )
    .map((pieces) => checked({ ...plan, pieces })),
);

export function byEyeHappening(plan: Plan): fc.Arbitrary<Happening> {
  const yarn = fc.constantFrom(...plan.yarns.map((it) => it.letter));
  const kind = <const K extends string>(name: K) => fc.constant(name);
  return fc.oneof(
    {
      weight: 8,
      arbitrary: fc.record({ kind: kind('thrownOf'), yarn, picks: fc.integer({ min: 1, max: 4 }) }),
    },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: kind('woveLengthOf'),
        yarn,
        loomLength: fc.integer({ min: 0, max: 40 }),
      }),
    },
    { weight: 1, arbitrary: fc.record({ kind: kind('freeEnded') }) },
    { weight: 5, arbitrary: happening(plan) },
  );
}

/** A plan and a log for it. */
export const anyFreeLog: fc.Arbitrary<{
  readonly plan: Plan;
  readonly log: readonly Happening[];
}> = anyFreePlan.chain((plan) =>
  fc.record({
    plan: fc.constant(plan),
    log: fc.array(byEyeHappening(plan), { maxLength: 25 }),
  }),
);
