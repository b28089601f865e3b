/** The blocks of the piece at the fell as a weaver changes them by hand: longer, shorter, ended, skipped. */
import type { Mm } from '../measure/length.ts';
import { picksOf, plannedLengthOf } from '../plan/blocks.ts';
import { keptBy, stepOf } from './aims.ts';
import { pieceAtFell } from './asking.ts';
import type { CourseBlock } from './course.ts';
import type { Keep } from './events.ts';
import { layPiece } from './layPiece.ts';
import type { Progress } from './progress.ts';

export interface BlockHere {
  readonly block: CourseBlock;
  /** Picks of it in the cloth. */
  readonly woven: number;
  readonly state: 'woven' | 'here' | 'toCome';
  readonly keep: Keep;
  /** The plan's own picks and length, before anything was changed. */
  readonly plannedPicks: number;
  readonly plannedLength: Mm;
  /** Picks a step more or fewer come to, closing colour and shuttles kept; null where there is none. */
  readonly longer: number;
  readonly shorter: number | null;
}

/** Blocks in weaving order, hems included. */
export function blocksHere(progress: Progress): readonly BlockHere[] {
  const { course, pick, keeping } = progress;
  const piece = course.pieces[pieceAtFell(progress).piece];
  if (piece === undefined) return [];
  const bases = layPiece(course.plan, piece.index);
  return course.blocks
    .slice(piece.firstBlock, piece.firstBlock + piece.blocks)
    .flatMap((block, i) => {
      const base = bases[i];
      if (base === undefined) return [];
      const woven = Math.max(0, Math.min(block.picks, pick - block.firstPick));
      const isWoven = block.picks > 0 && woven === block.picks;
      const step = stepOf(base);
      const shorter = block.picks - step;
      return [
        {
          block,
          woven,
          state: isWoven ? ('woven' as const) : woven > 0 ? ('here' as const) : ('toCome' as const),
          keep: keptBy(course, block, keeping),
          plannedPicks: picksOf(base),
          plannedLength: base.plannedLength ?? plannedLengthOf(base),
          longer: block.picks + step,
          shorter: shorter >= Math.max(1, woven) ? shorter : null,
        },
      ];
    });
}
