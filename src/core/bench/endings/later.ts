/** The pieces after the one to end, as the course has them now. */
import type { Mm } from '../../measure/length.ts';
import { plannedLengthOf } from '../../plan/blocks.ts';
import type { Piece } from '../../plan/plan.ts';
import { thrownOnly } from '../byEye/record.ts';
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

/** What the pieces after the present one still want of weft and warp, whatever becomes of that one. */
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

/** One piece followed to its end, hems included; a part woven by eye as far as it is thrown. */
export function pieceStrand(reckoning: Reckoning, piece: number): Strand {
  const { course } = reckoning;
  const it = course.pieces[piece];
  const strand = newStrand(reckoning, piece);
  if (it === undefined) return strand;
  for (const { laid } of course.blocks.slice(it.firstBlock, it.firstBlock + it.blocks)) {
    const thrown = thrownOnly(laid);
    weaveBlock(reckoning, strand, thrown);
    const meant = laid.isOpen && laid.block?.kind === 'free' ? (laid.block.loomLength ?? 0) : 0;
    // In which yarns nobody knows; a length meant is a length all the same.
    strand.ahead[0] = (strand.ahead[0] ?? 0) + Math.max(0, meant - plannedLengthOf(thrown));
  }
  return strand;
}

/** A piece as it was planned, as long as no hand has changed it: then what is planned by length stays so. */
export function asItStands(course: Course, piece: number): Piece {
  const planned = course.plan.pieces[piece];
  const isPlanned = planned !== undefined && !isSetByHand(course, piece);
  return isPlanned ? planned : pieceAsWoven(course, piece);
}
