import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  lastOfYarn,
  type Marked,
  setMilestones,
  stripeHolding,
} from '../../../src/core/bench/milestones.ts';

const YARNS = 4;

interface Stripe {
  readonly yarn: number;
  readonly picks: number;
}

function marked(pieces: readonly (readonly Stripe[])[]) {
  const all = pieces.flat();
  const starts = [0];
  for (const { picks } of all) starts.push((starts.at(-1) ?? 0) + picks);
  let firstStripe = 0;
  const ofPieces = pieces.map(({ length: stripes }) => {
    firstStripe += stripes;
    return { firstStripe: firstStripe - stripes, stripes };
  });
  const stripes: Marked = {
    count: all.length,
    firstPick: Int32Array.from(starts),
    yarn: Uint8Array.from(all, ({ yarn }) => yarn),
    ofPieces,
  };
  return { ...stripes, ...setMilestones(stripes, YARNS) };
}

const stripe = fc.record({ yarn: fc.nat(YARNS - 1), picks: fc.integer({ min: 1, max: 40 }) });
const pieces = fc.array(fc.array(stripe, { maxLength: 60 }), { maxLength: 4 });

describe('the marks along the stripes', () => {
  it('find three stripes of two yarns by hand', () => {
    const stripes = marked([
      [
        { yarn: 0, picks: 2 },
        { yarn: 1, picks: 20 },
        { yarn: 0, picks: 1 },
      ],
    ]);
    expect([-1, 0, 1, 2, 21, 22, 23].map((pick) => stripeHolding(stripes, pick))).toEqual([
      -1, 0, 0, 1, 1, 2, 2,
    ]);
    expect([0, 1, 2].map((r) => [lastOfYarn(stripes, 0, r), lastOfYarn(stripes, 1, r)])).toEqual([
      [0, -1],
      [0, 1],
      [2, 1],
    ]);
  });

  it('find what looking at every stripe finds (brute force)', () => {
    fc.assert(
      fc.property(pieces, (woven) => {
        const all = woven.flat();
        const stripes = marked(woven);
        const holding = all.flatMap(({ picks }, r) => Array<number>(picks).fill(r));
        expect(holding.map((_, pick) => stripeHolding(stripes, pick))).toEqual(holding);
        expect(stripeHolding(stripes, holding.length)).toBe(all.length - 1);
        for (let yarn = 0; yarn < YARNS; yarn++) {
          const isOf = (it: Stripe) => it.yarn === yarn;
          const last = all.map((_, r) => all.slice(0, r + 1).findLastIndex(isOf));
          expect(all.map((_, r) => lastOfYarn(stripes, yarn, r))).toEqual(last);
          const first = stripes.ofPieces.map(({ firstStripe }, piece) => {
            const at = woven[piece]?.findIndex(isOf) ?? -1;
            return at < 0 ? -1 : firstStripe + at;
          });
          expect(woven.map((_, piece) => stripes.firstOf[piece * YARNS + yarn])).toEqual(first);
        }
      }),
    );
  });
});
