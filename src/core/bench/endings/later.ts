/** The pieces after the one to end, as the course has them now. */
import type { Mm } from '../../measure/length.ts';
import type { Piece } from '../../plan/plan.ts';
import type { Course } from '../course.ts';
import { type Reckoning, unwovenAfter } from './reckoning.ts';
import { newStrand, type Strand, weaveBlock } from './strand.ts';
import { pieceAsWoven } from './woven/asWoven.ts';
import { isSetByHand } from './woven/parts.ts';

export interface LaterPieces {
  /** Planned millimetres by yarn index of all of them. */
  readonly ahead: readonly Mm[];
  /** What is left unwoven after each of them, as weavable loom length. */
  readonly unwoven: Mm;
  readonly pieces: readonly Piece[];
}

export function laterPieces(reckoning: Reckoning): LaterPieces {
  const { course, plan, present } = reckoning;
  const later = course.pieces.slice(present.index + 1);
  const strands = later.map((it) => pieceStrand(reckoning, it.index));
  return {
    ahead: plan.yarns.map((_, yarn) =>
      strands.reduce((sum, strand) => sum + (strand.ahead[yarn] ?? 0), 0),
    ),
    unwoven: later.reduce(
      (sum, it) => sum + unwovenAfter(reckoning, it.index, plan.pieces.length),
      0,
    ),
    pieces: later.map((it) => asItStands(course, it.index)),
  };
}

/** One piece followed to its end, hems included. */
export function pieceStrand(reckoning: Reckoning, piece: number): Strand {
  const { course } = reckoning;
  const it = course.pieces[piece];
  const strand = newStrand(reckoning, piece);
  if (it === undefined) return strand;
  for (const block of course.blocks.slice(it.firstBlock, it.firstBlock + it.blocks))
    weaveBlock(reckoning, strand, block.laid);
  return strand;
}

/** A piece as it was planned, as long as no hand has changed it: then what is planned by length stays so. */
export function asItStands(course: Course, piece: number): Piece {
  const planned = course.plan.pieces[piece];
  const isPlanned = planned !== undefined && !isSetByHand(course, piece);
  return isPlanned ? planned : pieceAsWoven(course, piece);
}
