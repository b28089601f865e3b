/** How the wishes were met: wished, forecast by the plan, and real, side by side. */
import type { PieceFigures, PieceSizes } from '../learn/figure.ts';
import type { ClothReadings, PieceReadings } from '../learn/readings.ts';
import { valuesOf } from '../learn/sizes.ts';
import type { Mm } from '../measure/length.ts';
import { meanOf } from '../measure/spread.ts';
import { turnedUnder } from '../plan/geometry.ts';
import type { Piece, Plan, Wish } from '../plan/plan.ts';
import type { Range } from '../plan/sureness.ts';
import { type PlanSheet, sheetOf } from './sheet.ts';

export interface SizeMet {
  readonly wished: Mm | null;
  readonly forecast: Mm;
  /** Nine in ten were to lie here; null where the plan had learnt nothing. */
  readonly range: Range | null;
  /** Null while it is not read. */
  readonly real: Mm | null;
}

export interface PieceMet {
  readonly piece: number;
  /** The state the length is told in: that of the wish, else washed. */
  readonly state: Wish['state'];
  readonly length: SizeMet;
  /** Washed; nobody wishes a width, the warp has it. */
  readonly width: SizeMet;
  /** Finished, the mean of what was read; null where no edge has one. */
  readonly fringe: SizeMet | null;
}

/** One a piece. Real is in the same state as wished; finished is washed less what is turned under. */
export function wishesMet(
  plan: Plan,
  pieces: readonly PieceFigures[],
  readings: ClothReadings,
): readonly PieceMet[] {
  const sheet = sheetOf(plan);
  return plan.pieces.flatMap((piece, i) => {
    const figures = pieces[i];
    const read = readings.pieces[i];
    if (figures === undefined || read === undefined) return [];
    return [pieceMet(sheet, { index: i, piece, sizes: figures.sizes, read })];
  });
}

interface OnePiece {
  readonly index: number;
  readonly piece: Piece;
  readonly sizes: PieceSizes;
  readonly read: PieceReadings;
}

function pieceMet(sheet: PlanSheet, it: OnePiece): PieceMet {
  const { widths } = sheet;
  const real = it.sizes.washedWidth?.mm ?? null;
  return {
    piece: it.index,
    state: it.piece.wish?.state ?? 'washed',
    length: lengthMet(sheet, it),
    width: { wished: null, forecast: widths.washed, range: widths.washedRange, real },
    fringe: fringeMet(it),
  };
}

function lengthMet(sheet: PlanSheet, { index, piece, sizes }: OnePiece): SizeMet {
  const forecast = sheet.pieces[index];
  if (forecast === undefined) throw new Error(`wanted a sheet of piece ${index}, got none`);
  const { wish } = forecast;
  if (wish === null) {
    const real = sizes.washedLength?.mm ?? null;
    return { wished: null, forecast: forecast.washedLength, range: forecast.washedRange, real };
  }
  const { reached, range } = wish;
  const real = realIn(wish.wish.state, piece, sizes);
  return { wished: wish.wish.length, forecast: reached, range, real };
}

function realIn(state: Wish['state'], { beginning, ending }: Piece, sizes: PieceSizes): Mm | null {
  switch (state) {
    case 'loom':
      return sizes.loomLength?.mm ?? null;
    case 'off':
      return sizes.offLength?.mm ?? null;
    case 'washed':
      return sizes.washedLength?.mm ?? null;
    case 'finished': {
      const { washedLength } = sizes;
      return washedLength === null
        ? null
        : washedLength.mm - turnedUnder(beginning) - turnedUnder(ending);
    }
  }
}

function fringeMet({ piece, read }: OnePiece): SizeMet | null {
  const wished = [piece.beginning, piece.ending].flatMap((edge) =>
    edge.kind === 'hemstitch' && edge.fringe > 0 ? [edge.fringe] : [],
  );
  if (wished.length === 0) return null;
  const reads = valuesOf(read.states.washed.fringes);
  const mean = meanOf(wished);
  return {
    wished: mean,
    forecast: mean,
    range: null,
    real: reads.length === 0 ? null : meanOf(reads),
  };
}
