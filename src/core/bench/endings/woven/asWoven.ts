/** A piece of the course as a piece of a plan: what the weaver changed on the way, written down in picks. */
import type { LaidBlock } from '../../../plan/blocks.ts';
import type { Edge, Piece, Plan } from '../../../plan/plan.ts';
import type { Course } from '../../course.ts';
import { type EdgeAsWoven, edgeAsWoven } from './edges.ts';
import { firstYarn, lastYarn, partsOf } from './parts.ts';
import { weftOf, withinLimit } from './regroup.ts';

/**
 * The piece with every block as the course has it now, in picks and whole turns: laid again it has
 * the same yarn at every pick. What was thrown by eye is blocks too, and goes on by eye where it is
 * not ended. A piece cut down to nothing is given as it was planned.
 */
export function pieceAsWoven(course: Course, piece: number): Piece {
  const { beginning, weft, ending } = partsOf(course, piece);
  const it = course.plan.pieces[piece];
  if (it === undefined) throw new Error(`pieceAsWoven: wanted a piece of the plan, got ${piece}`);
  return (
    pieceOf(course.plan, it, {
      beginning: beginning?.laid ?? null,
      weft: weft.map((block) => course.blocks[block.index]?.laid ?? block.laid),
      ending: ending?.laid ?? null,
    }) ?? it
  );
}

/** The blocks of one piece; a hem that is null is laid as its edge says. */
export interface LaidPiece {
  readonly beginning: LaidBlock | null;
  readonly weft: readonly LaidBlock[];
  readonly ending: LaidBlock | null;
}

/** The piece that is laid so; null when it would have no weft. */
export function pieceOf(plan: Plan, piece: Piece, laid: LaidPiece): Piece | null {
  const { beginning, ending } = edgesOf(plan, piece, laid);
  const weft = withinLimit([...beginning.spare, ...weftOf(plan, laid.weft), ...ending.spare]);
  if (weft.length === 0) return null;
  return { ...piece, beginning: beginning.edge, ending: ending.edge, weft };
}

/** The edges that are laid as the hems of a piece are. */
export function edgesOf(
  plan: Plan,
  piece: { readonly beginning: Edge; readonly ending: Edge },
  { beginning, weft, ending }: LaidPiece,
): { readonly beginning: EdgeAsWoven; readonly ending: EdgeAsWoven } {
  return {
    beginning: edgeAsWoven(plan, piece.beginning, beginning, firstYarn(weft) ?? -1),
    ending: edgeAsWoven(plan, piece.ending, ending, lastYarn(weft) ?? -1),
  };
}
