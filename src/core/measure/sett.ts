import type { Mm } from './length.ts';
import { MM_PER_INCH } from './length.ts';
import type { Tex } from './yarnCount.ts';
import { countIn, ydPerLb } from './yarnCount.ts';

/** Ends, picks or threads per inch. */
export type PerInch = number;

/** What a yarn is spun from. Cottolin is cotton and flax spun together. */
export const FIBRES = ['cotton', 'cottolin', 'linen', 'wool', 'silk', 'hemp', 'other'] as const;
export type Fibre = (typeof FIBRES)[number];

/** What a cloth is for, as far as its sett goes. */
export const USES = ['firm', 'towel', 'drape'] as const;
export type Use = (typeof USES)[number];

/** One repeat of a weave along one thread: the threads it passes, and how often it crosses over. */
export interface Weave {
  readonly threads: number;
  readonly crossings: number;
}

export const PLAIN: Weave = { threads: 2, crossings: 2 };
export const TWILL_2_2: Weave = { threads: 4, crossings: 2 };

/**
 * The k of Ashenhurst's rule. Authors give cotton 0.90 to 0.97; the app uses 0.95 (Taylor, Cotton
 * Weaving and Designing, 1909, p. 453). Every other fibre has 0.90, the figure quoted of Ashenhurst
 * (for cotton), as a stand-in: no figure by fibre has been confirmed from a source yet.
 */
export const TOUCHING_CONSTANTS: Readonly<Record<Fibre, number>> = {
  cotton: 0.95,
  cottolin: 0.9,
  linen: 0.9,
  wool: 0.9,
  silk: 0.9,
  hemp: 0.9,
  other: 0.9,
};

/**
 * Which part of the closest sett suits a use. Towel: 75 to 80 %, the usual working sett (common
 * practice, no source). Firm and drape are this app's own choice above and below it, no source.
 */
export const WORKING_SHARES: Readonly<Record<Use, { readonly from: number; readonly to: number }>> =
  {
    firm: { from: 0.8, to: 0.9 },
    towel: { from: 0.75, to: 0.8 },
    drape: { from: 0.6, to: 0.75 },
  };

/** Threads per inch when they lie touching, by Ashenhurst's rule k·√(yd/lb): cotton 32s → 156. */
export function threadsTouching(tex: Tex, fibre: Fibre): PerInch {
  return touchingBy(TOUCHING_CONSTANTS[fibre], tex);
}

/** The same rule with a constant of one's own choice. */
export function touchingBy(constant: number, tex: Tex): PerInch {
  return constant * Math.sqrt(ydPerLb(tex));
}

/** Thickness of a yarn by Ashenhurst's rule, in mm. */
export function diameterOf(tex: Tex, fibre: Fibre): Mm {
  return MM_PER_INCH / threadsTouching(tex, fibre);
}

/** The part of the touching threads that a weave leaves room for (Taylor 1909, p. 436): plain ½. */
export function shareLeft({ threads, crossings }: Weave): number {
  return threads / (threads + crossings);
}

/** The closest sett a weave can be set at; not yet a working sett (see `workingSett`). */
export function closestSett(tex: Tex, fibre: Fibre, weave: Weave = PLAIN): PerInch {
  return threadsTouching(tex, fibre) * shareLeft(weave);
}

/** The range of setts that suit a use. */
export function workingSett(
  closest: PerInch,
  use: Use,
): { readonly from: PerInch; readonly to: PerInch } {
  const { from, to } = WORKING_SHARES[use];
  return { from: closest * from, to: closest * to };
}

/** The sett as firm in another weave (Taylor 1909, p. 464): plain at 103 → 2/2 twill at 137⅓. */
export function settAsFirmIn(sett: PerInch, from: Weave, to: Weave): PerInch {
  return (sett * shareLeft(to)) / shareLeft(from);
}

/** Threads per inch of a reed or heddle numbered by another measure: 40 per 100 mm → 10.16. */
export function perInchOf(count: number, over: Mm): PerInch {
  return (count * MM_PER_INCH) / over;
}

/** The same sett per centimetre, for those who read it so. */
export function perCmOf(sett: PerInch): number {
  return (sett * 10) / MM_PER_INCH;
}

/** How many threads fill an extent, to the nearest whole one: 22 in at 24 → 528. */
export function threadsIn(extent: Mm, sett: PerInch): number {
  return Math.round((extent * sett) / MM_PER_INCH);
}

/** The extent that threads fill, in mm: 528 at 24 per inch → 558.8. */
export function extentOf(threads: number, sett: PerInch): Mm {
  return (threads * MM_PER_INCH) / sett;
}

/** Thickness of a cotton yarn in Peirce's geometry, 1/(28·√Ne) in, in mm. */
export function peirceDiameter(tex: Tex): Mm {
  return MM_PER_INCH / (28 * Math.sqrt(countIn('cottonCount', tex)));
}

/**
 * Crimp of a thread, as a fraction of the cloth, from how far it is thrown out of the plane (h)
 * over one spacing of the threads it crosses (p): h = (4/3)·p·√c turned round (Peirce 1937).
 */
export function crimpFromWave(h: Mm, p: Mm): number {
  return ((3 * h) / (4 * p)) ** 2;
}

/** Crimp of balanced plain cloth, where each thread is thrown out by its own thickness. */
export function balancedCrimp(diameter: Mm, sett: PerInch): number {
  return crimpFromWave(diameter, MM_PER_INCH / sett);
}

/**
 * Crimp of a thread of jammed plain cloth that takes this share of the throw (½ in square cloth):
 * cos θ = 1 − share, c = θ / sin θ − 1 (Peirce 1937). The share lies above 0 and up to 1.
 */
export function jammedCrimp(share: number): number {
  const angle = Math.acos(1 - share);
  return angle / Math.sin(angle) - 1;
}

/** One thread system of a cloth: its sett, its yarn, and its crimp as a fraction of the cloth. */
export interface ThreadSystem {
  readonly sett: PerInch;
  readonly tex: Tex;
  readonly crimp: number;
}

/** Mass of a square metre of cloth, in grams: epi·tex·(1 + c)/25.4 for warp and weft together. */
export function arealMass(warp: ThreadSystem, weft: ThreadSystem): number {
  return [warp, weft].reduce((sum, s) => sum + (s.sett * s.tex * (1 + s.crimp)) / MM_PER_INCH, 0);
}
