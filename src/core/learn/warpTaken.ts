/** Warp taken: what weaving takes from the beam beyond the length on the loom, from the warp's own figures. */
import type { Mm } from '../measure/length.ts';
import type { Plan } from '../plan/plan.ts';
import { type Figure, plausible, type Want } from './figure.ts';
import type { WarpReadings } from './readings.ts';
import type { Size } from './sizes.ts';

/** A warp tied on, or a waste with its knots, is known to about a centimetre (ours). */
const WARP_READ_ERROR: Mm = 10;
const MOST_TAKEN = 0.5;

/**
 * (tied on − wastes − gaps) / loom lengths − 1, one figure a warp. Every part of it has to be read:
 * the gaps of a warp with one piece are none. 'implausible' beyond −5 and 50 %.
 */
export function warpTakenOf(
  { pieces }: Plan,
  warp: WarpReadings,
  loomLengths: readonly (Size | null)[],
): Figure {
  const { tiedOn, frontWaste, backWaste } = warp;
  const gaps = gapsOf(warp, pieces.length);
  const looms = loomLengths.filter((it) => it !== null);
  const allRead = looms.length === pieces.length;
  if (tiedOn === null || frontWaste === null || backWaste === null || gaps === null || !allRead) {
    return { kind: 'not-read', wants: wantsOf(warp, gaps, allRead) };
  }
  const woven = sumOf(looms.map((it) => it.mm));
  const taken = tiedOn.value - frontWaste.value - backWaste.value - sumOf(gaps);
  const takenError = WARP_READ_ERROR * Math.sqrt(3 + gaps.length);
  const wovenError = Math.hypot(...looms.map((it) => it.sd));
  const error = (taken / woven) * Math.hypot(takenError / taken, wovenError / woven);
  return plausible(taken / woven - 1, error, -0.05, MOST_TAKEN);
}

function gapsOf({ gaps }: WarpReadings, pieces: number): readonly Mm[] | null {
  if (pieces === 1) return [];
  return gaps !== null && gaps.value.length === pieces - 1 ? gaps.value : null;
}

function wantsOf(
  warp: WarpReadings,
  gaps: readonly Mm[] | null,
  allRead: boolean,
): readonly Want[] {
  const wants: readonly (Want | null)[] = [
    allRead ? null : 'loom-length',
    warp.tiedOn === null ? 'tied-on' : null,
    warp.frontWaste === null ? 'front-waste' : null,
    warp.backWaste === null ? 'back-waste' : null,
    gaps === null ? 'gaps' : null,
  ];
  return wants.filter((it) => it !== null);
}

function sumOf(lengths: readonly Mm[]): Mm {
  return lengths.reduce((sum, it) => sum + it, 0);
}
