/**
 * What each piece of a warp teaches: the shares its readings come to, each with its error, and for
 * every figure that cannot be had what was not read for it.
 */
import type { Course } from '../bench/course.ts';
import type { Mm } from '../measure/length.ts';
import { meanOf } from '../measure/spread.ts';
import { crimpOf, lossOf } from '../measure/takeUp.ts';
import { reedWidth } from '../plan/geometry.ts';
import type { Plan } from '../plan/plan.ts';
import {
  type Figure,
  type PieceFigures,
  type PieceSizes,
  plausible,
  type Want,
  type WarpFigures,
} from './figure.ts';
import type { ClothReadings, PieceReadings } from './readings.ts';
import { readErrorOf, type Size, sizeOf, sureEnough, valuesOf } from './sizes.ts';
import { twistOf } from './twist.ts';
import { warpTakenOf } from './warpTaken.ts';
import { weftExtraOf } from './weftExtra.ts';

/** Everything one warp teaches. */
export interface Woven {
  /** As it was woven, blocks cut short or lengthened included. */
  readonly course: Course;
  /** Picks in the cloth when it was cut off. */
  readonly picks: number;
  readonly readings: ClothReadings;
  /** What the bench takes each piece's loom length to be; a reading on the loom comes before it. */
  readonly loomLengths: readonly (Size | null)[];
}

/** What each piece and the warp as a whole teach. */
export function figuresOf(woven: Woven): WarpFigures {
  const { plan } = woven.course;
  const error = readErrorOf(woven.readings);
  const sizes = woven.readings.pieces.map((it, i) =>
    sizesOf(plan, it, sureEnough(woven.loomLengths[i] ?? null), error),
  );
  const warpTaken = warpTakenOf(
    plan,
    woven.readings.warp,
    sizes.map((it) => it.loomLength),
  );
  const pieces = woven.readings.pieces.map((readings, piece) => {
    const own = sizes[piece];
    if (own === undefined) throw new Error(`figuresOf: wanted sizes of piece ${piece}, got none`);
    const figures = {
      ...lossesOf(own),
      crimp: crimp(readings),
      weftExtra: weftExtraOf(woven, { piece, readings, sizes: own, warpTaken }),
      twist: twistOf(plan, piece, readings, own, error),
    };
    return { piece, counts: readings.counts, sizes: own, figures };
  });
  return { pieces, warpTaken };
}

function sizesOf(
  plan: Plan,
  { states: { loom, off, washed } }: PieceReadings,
  estimate: Size | null,
  error: Mm,
): PieceSizes {
  return {
    loomLength: sizeOf(loom.lengths, error) ?? estimate,
    offLength: sizeOf(off.lengths, error),
    washedLength: sizeOf(washed.lengths, error),
    reedWidth: reedWidth(plan),
    fellWidth: sizeOf(loom.widths, error),
    offWidth: sizeOf(off.widths, error),
    washedWidth: sizeOf(washed.widths, error),
  };
}

type Losses = Pick<
  PieceFigures['figures'],
  'drawIn' | 'relax' | 'shrinkLength' | 'lengthLoss' | 'shrinkWidth' | 'widthLoss'
>;

function lossesOf(sizes: PieceSizes): Losses {
  const reed: Size = { mm: sizes.reedWidth, sd: 0 };
  return {
    drawIn: loss([reed, null], [sizes.fellWidth, 'fell-width']),
    relax: loss([sizes.loomLength, 'loom-length'], [sizes.offLength, 'off-length']),
    shrinkLength: loss([sizes.offLength, 'off-length'], [sizes.washedLength, 'washed-length']),
    lengthLoss: loss([sizes.loomLength, 'loom-length'], [sizes.washedLength, 'washed-length']),
    shrinkWidth: loss([sizes.offWidth, 'off-width'], [sizes.washedWidth, 'washed-width']),
    widthLoss: loss([reed, null], [sizes.washedWidth, 'washed-width']),
  };
}

/** Cloth may grow a little when it is relaxed or washed; beyond these a reading is wrong (ours). */
const LEAST_LOSS = -0.15;
const MOST_LOSS = 0.5;

type Side = readonly [Size | null, Want | null];

function loss([before, wantBefore]: Side, [after, wantAfter]: Side): Figure {
  if (before === null || after === null) {
    const wants = [before === null ? wantBefore : null, after === null ? wantAfter : null];
    return { kind: 'not-read', wants: wants.filter((it) => it !== null) };
  }
  const share = lossOf(before.mm, after.mm);
  const error = (1 - share) * Math.hypot(before.sd / before.mm, after.sd / after.mm);
  return plausible(share, error, LEAST_LOSS, MOST_LOSS);
}

/** A length pulled straight by hand strays by about this much (ours). */
const RAVEL_ERROR: Mm = 1;

/** Crimp relative to the cloth, the mean over the ends drawn out (ASTM D3883). */
function crimp({ ravelled }: PieceReadings): Figure {
  if (ravelled.length === 0) return { kind: 'not-read', wants: ['ravelled-end'] };
  const ends = valuesOf(ravelled);
  const share = meanOf(ends.map((it) => crimpOf(it.straightened, it.inCloth)));
  const inCloth = meanOf(ends.map((it) => it.inCloth));
  const error = (Math.SQRT2 * RAVEL_ERROR) / inCloth / Math.sqrt(ends.length);
  return plausible(share, error, -0.05, 1);
}
