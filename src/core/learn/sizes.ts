/** Sizes of the real cloth with their errors, from several readings each. */
import { CLOTH_READ_STATES } from '../bench/events.ts';
import type { Mm } from '../measure/length.ts';
import { meanOf, spreadOf, squaresOf } from '../measure/spread.ts';
import type { ClothReadings, Read } from './readings.ts';

/** A size and the standard deviation of its error. */
export interface Size {
  readonly mm: Mm;
  readonly sd: Mm;
}

/** One reading of soft cloth along a tape strays by about this much (common practice, no source). */
const USUAL_READ_ERROR: Mm = 2;
/** How many repeated readings that is worth against the weaver's own. */
const USUAL_WORTH = 4;

/**
 * Standard deviation of one reading of length or width: pooled over everything of this warp that was
 * read more than once, as the repeatability of ISO 5725-2 is, beside what is usual while there is
 * little of it.
 */
export function readErrorOf({ pieces }: ClothReadings): Mm {
  let squares = USUAL_WORTH * USUAL_READ_ERROR ** 2;
  let freedom = USUAL_WORTH;
  for (const { states } of pieces) {
    for (const state of CLOTH_READ_STATES) {
      for (const reads of [states[state].lengths, states[state].widths]) {
        if (reads.length < 2) continue;
        squares += squaresOf(valuesOf(reads));
        freedom += reads.length - 1;
      }
    }
  }
  return Math.sqrt(squares / freedom);
}

/** The mean of readings with its error; null where nothing was read. */
export function sizeOf(reads: readonly Read<Mm>[], readError: Mm): Size | null {
  if (reads.length === 0) return null;
  return { mm: meanOf(valuesOf(reads)), sd: readError / Math.sqrt(reads.length) };
}

/** Several readings as they are told; null where nothing was read. */
export function averageOf(
  reads: readonly Read<number>[],
): { readonly mean: number; readonly spread: number | null; readonly times: number } | null {
  if (reads.length === 0) return null;
  const values = valuesOf(reads);
  return { mean: meanOf(values), spread: spreadOf(values), times: reads.length };
}

/** The figures alone, where it does not matter which reading they came with. */
export function valuesOf<T>(reads: readonly Read<T>[]): readonly T[] {
  return reads.map((it) => it.value);
}

/** An estimate less sure than this says nothing of the cloth: it is the plan's own figure. */
const LEAST_SURE = 0.03;

/** The estimate, where it is sure enough to learn from: its error at most 3 % of it. */
export function sureEnough(estimate: Size | null): Size | null {
  return estimate !== null && estimate.mm > 0 && estimate.sd <= LEAST_SURE * estimate.mm
    ? estimate
    : null;
}
