/** Random warp orders: solids, alternations, repeats and mirrors, nested. */
import fc from 'fast-check';
import type { Letter, Stripe } from '../../../src/core/plan/plan.ts';

export function anyStripe(letters: readonly Letter[]): fc.Arbitrary<Stripe> {
  const yarn = fc.constantFrom(...letters);
  const ends = fc.integer({ min: 1, max: 12 });
  const { stripe } = fc.letrec<{ stripe: Stripe; several: Stripe[] }>((tie) => ({
    several: fc.array(tie('stripe'), { minLength: 1, maxLength: 2 }),
    stripe: fc.oneof(
      { maxDepth: 3, depthSize: 'small', withCrossShrink: true },
      { weight: 4, arbitrary: fc.record({ kind: fc.constant('solid' as const), yarn, ends }) },
      {
        weight: 3,
        arbitrary: fc.record({
          kind: fc.constant('alternation' as const),
          cycle: fc.array(fc.record({ yarn, ends }), { minLength: 2, maxLength: 3 }),
          turns: fc.integer({ min: 1, max: 7 }),
        }),
      },
      {
        weight: 2,
        arbitrary: fc.record({
          kind: fc.constant('repeat' as const),
          times: fc.integer({ min: 1, max: 3 }),
          of: tie('several'),
        }),
      },
      {
        weight: 2,
        arbitrary: fc.record({
          kind: fc.constant('mirror' as const),
          centre: fc.constantFrom('shared' as const, 'doubled' as const),
          of: tie('several'),
        }),
      },
    ),
  }));
  return stripe;
}

export function anyOrder(letters: readonly Letter[]): fc.Arbitrary<readonly Stripe[]> {
  return fc.oneof(
    fc.array(anyStripe(letters), { minLength: 1, maxLength: 4 }),
    // Mirrored without a mirror: the same stripes there and back, written out.
    fc
      .array(anyStripe(letters), { minLength: 1, maxLength: 2 })
      .map((half) => [...half, ...half.toReversed()]),
  );
}
