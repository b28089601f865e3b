/**
 * From planned lengths to real ones: what the readings taught about the beat, as the course wants it.
 *
 * The *reckoned* length of a pick is its planned spacing times what its yarn does to it; along a
 * piece it runs from 0. A gauge maps it to the loom length believed now: it goes through every
 * reading, straight in between, and beyond the last at the beat now known.
 */
import type { Mm } from '../measure/length.ts';
import { lastAtOrBefore } from './search.ts';

export interface Gauge {
  /** Reckoned lengths, ascending from 0, and the loom length believed at each. */
  readonly reckoned: readonly Mm[];
  readonly loom: readonly Mm[];
  /** Real over reckoned length beyond the last of them. */
  readonly slope: number;
}

/** What is believed of a whole warp. */
export interface Belief {
  /** Of each yarn index: its own spacing, real over planned, beside the common factor. */
  readonly yarns: readonly number[];
  /** Of the pieces that were measured; every other goes by `slope` from its start. */
  readonly pieces: ReadonlyMap<number, Gauge>;
  readonly slope: number;
}

/** Before anything is measured the cloth is believed to be as planned. */
export const AS_PLANNED: Belief = { yarns: [], pieces: new Map(), slope: 1 };

/** The gauge of a piece; one not measured goes by the slope of the whole warp from its start. */
export function gaugeOf(belief: Belief, piece: number): Gauge {
  return belief.pieces.get(piece) ?? { reckoned: [0], loom: [0], slope: belief.slope };
}

/** Loom length believed at a reckoned length of a piece by its gauge, if it has one. */
export function believedAt(belief: Belief, gauge: Gauge | undefined, length: Mm): Mm {
  return gauge === undefined ? length * belief.slope : gauged(gauge, length);
}

/** Loom length believed at a reckoned length of the piece. */
export function gauged({ reckoned, loom, slope }: Gauge, length: Mm): Mm {
  const k = lastAtOrBefore(reckoned, reckoned.length, length);
  const [from, at] = [reckoned[k] ?? 0, loom[k] ?? 0];
  const next = reckoned[k + 1];
  if (next === undefined) return at + (length - from) * slope;
  const share = next === from ? 1 : (length - from) / (next - from);
  return at + share * ((loom[k + 1] ?? at) - at);
}
