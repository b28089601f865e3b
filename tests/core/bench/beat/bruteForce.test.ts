import { describe, expect, it } from 'vitest';
import { type Beat, PLANNED, startBeat } from '../../../../src/core/bench/beat/beat.ts';
import { lengthAt } from '../../../../src/core/bench/beat/lengths.ts';
import { NO_READINGS, rounded, roundingNoise } from '../../../../src/core/bench/beat/rounding.ts';
import { lengthByForce, type Step } from './bruteForce.ts';
import type { Done } from './simulatedWeaver.ts';
import { placeAt, rulerFor, toldBeat } from './trials.ts';

const SPACINGS = [2, 1.5];
/** A hem of 20 picks in B, then A and B by tens. */
const YARNS = Array.from({ length: 400 }, (_, i) => (i < 20 || i % 20 < 10 ? 1 : 0));
const ruler = rulerFor(YARNS, SPACINGS);

type What = { readonly pin: string } | { readonly mm: number; readonly from?: string };

/** What was done at which pick, told to the estimator and, with the pick asked for, to brute force. */
function both(done: readonly (readonly [pick: number, what: What])[], asked: number) {
  let beat: Beat = startBeat(2, PLANNED);
  let rounding = NO_READINGS;
  const pins: string[] = [];
  const steps: { pick: number; happened: Step['done'] }[] = [];
  for (const [pick, what] of done) {
    beat = toldBeat(beat, ruler, placeAt(pick), doneAs(pick, what));
    if ('pin' in what) {
      pins.push(what.pin);
      steps.push({ pick, happened: { kind: 'pin' } });
    } else {
      rounding = rounded(rounding, what.mm);
      const fromPin = what.from === undefined ? null : pins.indexOf(what.from);
      const noise = roundingNoise(rounding);
      steps.push({ pick, happened: { kind: 'read', mm: what.mm, rounding: noise, fromPin } });
    }
  }
  steps.push({ pick: asked, happened: { kind: 'nothing' } });
  const sorted = steps.sort((a, b) => a.pick - b.pick);
  const asSteps = sorted.map(({ pick, happened }, i): Step => {
    return { planned: ruler(sorted[i - 1]?.pick ?? 0, pick), done: happened };
  });
  const { mm, low, high } = lengthAt(beat, ruler, placeAt(asked));
  const index = sorted.findIndex(({ happened }) => happened.kind === 'nothing');
  return { got: [mm, low, high], wanted: lengthByForce(asSteps, index, PLANNED) };
}

function doneAs(pick: number, what: What): Done {
  if ('pin' in what) return { kind: 'pinned', pin: what.pin };
  return {
    kind: 'measured',
    reading: `r${pick}`,
    loomLength: what.mm,
    from: what.from === undefined ? { kind: 'start' } : { kind: 'pin', pin: what.from },
    tension: 'tight',
  };
}

const CALM = [
  [50, { mm: 87 }],
  [90, { mm: 161 }],
  [140, { mm: 252 }],
] as const;
const WITH_PINS = [
  [40, { mm: 69.85 }],
  [60, { pin: 'first' }],
  [90, { mm: 53.975, from: 'first' }],
  [110, { pin: 'second' }],
  [150, { mm: 76.2, from: 'second' }],
] as const;
const MISREAD = [
  [50, { mm: 87 }],
  [90, { mm: 161 }],
  [120, { mm: 193 }],
  [150, { mm: 270 }],
] as const;
const JUMPED = [
  [60, { mm: 105 }],
  [100, { mm: 176 }],
  [140, { mm: 254 }],
  [170, { mm: 318 }],
] as const;

describe('against brute force', () => {
  it.each([
    ['nothing measured', [], [1, 100, 400]],
    ['three readings', CALM, [1, 30, 50, 70, 90, 140, 160, 400]],
    ['pins', WITH_PINS, [30, 60, 75, 100, 110, 150, 400]],
    ['a reading 2 cm short', MISREAD, [60, 105, 120, 140, 150, 200]],
    ['a beat that grew looser', JUMPED, [80, 120, 170, 400]],
  ] as const)(
    '%s: median and interval are those of all that may have happened',
    (_, done, picks) => {
      for (const pick of picks) {
        const { got, wanted } = both(done, pick);
        const [, low = 0, high = 0] = wanted;
        for (const [i, it] of got.entries()) {
          // Branches dropped as unlikely weigh a hundredth or two at most.
          expect(Math.abs(it - (wanted[i] ?? Number.NaN)) / (high - low)).toBeLessThan(0.02);
        }
      }
    },
  );
});
