/**
 * A weaver made of chance, to try the estimator on: a true beat that is never the planned one, that
 * wanders and jumps, and a ruler that is read with noise, rounded, and now and then misread.
 *
 * Knows nothing of the estimator. What to weave next is the caller's to decide, pick by pick, so
 * that a plan re-aimed on the way can be woven too. One seed, one weaver.
 */
import type { Happening } from '../../../../src/core/bench/events.ts';

type Range = readonly [from: number, to: number];

export interface Weaver {
  /** Planned spacing of each yarn, mm. */
  readonly spacings: readonly number[];
  /** True spacing over planned, of everything: sd, and never further off than this. */
  readonly spacing: { readonly sd: number; readonly most: number };
  /** The same for each yarn on top of that. */
  readonly yarnSd: number;
  /** Random walk of the spacing: sd (a share) per 100 mm of cloth. */
  readonly drift: number;
  /** Share of pieces with one jump in beat, and how large it is, up or down. */
  readonly jumps: { readonly share: number; readonly size: number };
  /** Cloth between readings, mm. */
  readonly every: Range;
  /** Sd of a reading, mm. */
  readonly noise: number;
  /** What readings are rounded to, mm; 0 for not at all. */
  readonly rounding: number;
  /** Share of readings taken from the last pin, once there is one. */
  readonly fromPins: number;
  /** Cloth between pins, mm; and how far from the fell one goes in (sd, mm). */
  readonly pinEvery: Range;
  readonly pinError: number;
  /** Misread readings: share, and how far off, mm, to either side. */
  readonly gross: { readonly share: number; readonly off: Range };
  /** Share of its length that the cloth loses when the warp is eased, and share of readings taken so. */
  readonly eases: { readonly share: number; readonly readings: number };
}

/** The weavers that must be served well; others are tried too. */
export const USUAL: Weaver = {
  spacings: [2.1, 1.7],
  spacing: { sd: 0.06, most: 0.15 },
  yarnSd: 0,
  drift: 0.015,
  jumps: { share: 0.2, size: 0.05 },
  every: [50, 100],
  noise: 1.5,
  rounding: 25.4 / 8,
  fromPins: 0.5,
  pinEvery: [100, 250],
  pinError: 1,
  gross: { share: 0.01, off: [10, 50] },
  eases: { share: 0.02, readings: 0 },
};

export interface Weaving {
  /** True loom length of the piece after n picks, mm; `lengths[0]` is 0. */
  readonly lengths: readonly number[];
  /** Yarn of each pick. */
  readonly yarns: readonly number[];
  /** Picks before the jump; null without one. */
  readonly jumpAt: number | null;
}

/** What the weaver does at the bench besides throwing. */
export type Done = Extract<Happening, { kind: 'pinned' | 'measured' }>;

export interface Loom {
  /** The yarn of the next pick when `picks` are woven; null when the piece is done. */
  readonly next: (picks: number) => number | null;
  /** Told as it happens, with the picks woven so far and their true length. */
  readonly did: (done: Done, picks: number, trueLength: number) => void;
  /** Length the piece is likely to get: a jump falls somewhere within it. */
  readonly about: number;
}

/** One piece, from the first pick to the last. Names of pins and readings begin with `name`. */
export function weavePiece(weaver: Weaver, chance: Chance, loom: Loom, name: string): Weaving {
  const yarnBeat = weaver.spacings.map(() => chance.normal() * weaver.yarnSd);
  let beat = 1 + capped(chance.normal() * weaver.spacing.sd, weaver.spacing.most);
  const jumpLength = chance.happens(weaver.jumps.share) ? chance.between([0, loom.about]) : null;
  let jumpAt: number | null = null;
  const lengths = [0];
  const yarns: number[] = [];
  let length = 0;
  const measure = measuring(weaver, chance, loom, name);
  for (;;) {
    const yarn = loom.next(yarns.length);
    if (yarn === null) return { lengths, yarns, jumpAt };
    const planned = weaver.spacings[yarn] ?? 0;
    if (jumpLength !== null && jumpAt === null && length >= jumpLength) {
      jumpAt = yarns.length;
      beat *= 1 + (chance.happens(0.5) ? 1 : -1) * weaver.jumps.size;
    }
    beat += chance.normal() * weaver.drift * Math.sqrt(planned / 100);
    length += planned * Math.max(0.2, beat + (yarnBeat[yarn] ?? 0));
    yarns.push(yarn);
    lengths.push(length);
    measure(yarns.length, length);
  }
}

/** Called after every pick: reads the ruler and puts in pins when it is time to. */
function measuring(weaver: Weaver, chance: Chance, { did }: Loom, name: string) {
  let pin: { readonly name: string; readonly at: number } | null = null;
  let nextPin = chance.between(weaver.pinEvery);
  let nextReading = chance.between(weaver.every);
  let names = 0;
  return (picks: number, length: number) => {
    if (length >= nextReading) {
      const from = pin !== null && chance.happens(weaver.fromPins) ? pin : null;
      const isEased = chance.happens(weaver.eases.readings);
      const reading: Done = {
        kind: 'measured',
        reading: `${name}.r${names++}`,
        loomLength: read(weaver, chance, length - (from?.at ?? 0), isEased),
        from: from === null ? { kind: 'start' } : { kind: 'pin', pin: from.name },
        tension: isEased ? 'eased' : 'tight',
      };
      did(reading, picks, length);
      nextReading = length + chance.between(weaver.every);
    }
    if (length >= nextPin) {
      pin = { name: `${name}.p${names++}`, at: length + chance.normal() * weaver.pinError };
      did({ kind: 'pinned', pin: pin.name }, picks, length);
      nextPin = length + chance.between(weaver.pinEvery);
    }
  };
}

function read(weaver: Weaver, chance: Chance, tight: number, isEased: boolean): number {
  const { noise, rounding, gross, eases } = weaver;
  let shown = tight * (isEased ? 1 - eases.share : 1) + chance.normal() * noise;
  if (chance.happens(gross.share))
    shown += (chance.happens(0.5) ? 1 : -1) * chance.between(gross.off);
  return rounding > 0 ? Math.round(shown / rounding) * rounding : shown;
}

const capped = (x: number, most: number): number => Math.max(-most, Math.min(most, x));

export interface Chance {
  /** Uniform in [0, 1). */
  readonly any: () => number;
  /** Standard normal. */
  readonly normal: () => number;
  readonly between: (range: Range) => number;
  readonly happens: (share: number) => boolean;
}

/**
 * Seeded chance: splitmix32, and normals by Box and Muller (1958). The seed is mixed first: unmixed,
 * neighbouring seeds would give one stream, shifted by one.
 */
export function chanceFrom(seed: number): Chance {
  let state = mixed(mixed(seed) ^ 0x5bd1e995);
  const any = () => {
    state = (state + 0x9e3779b9) | 0;
    return (mixed(state) >>> 0) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - any())) * Math.cos(2 * Math.PI * any());
  return {
    any,
    normal,
    between: ([from, to]) => from + (to - from) * any(),
    happens: (share) => any() < share,
  };
}

function mixed(bits: number): number {
  let t = bits ^ (bits >>> 16);
  t = Math.imul(t, 0x21f0aaad);
  t ^= t >>> 15;
  t = Math.imul(t, 0x735a2d97);
  return t ^ (t >>> 15);
}
