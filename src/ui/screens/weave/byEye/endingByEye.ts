/** Ending a part woven by eye, or the whole piece with it. */
import { freeAtFell } from '../../../../core/bench/byEye/throwing.ts';
import type { CourseBlock } from '../../../../core/bench/course.ts';
import type { Due } from '../../../../core/bench/dues.ts';
import { happened } from '../../../../core/bench/happened.ts';
import type { Progress } from '../../../../core/bench/progress.ts';
import { happen } from '../../../actions.ts';
import type { Session } from '../../../state.ts';

export interface EndHere {
  readonly block: CourseBlock;
  /** Planned blocks of the piece that would come next, its hem apart. */
  readonly follow: number;
  /** Nothing of the piece is woven and nothing else of it is planned: it would be no piece. */
  readonly isEmpty: boolean;
  /** The closing tail, where it would fall on the wrong side if the part ended the piece now. */
  readonly wrongTail: Extract<Due, { kind: 'endTail' }> | null;
}

/** What ending the part at the fell would come to; null where the plan says what comes next. */
export function endHere(progress: Progress): EndHere | null {
  const { course, pick } = progress;
  const block = freeAtFell(course, pick);
  if (block === null) return null;
  const piece = course.pieces[block.piece];
  if (piece === undefined) return null;
  const after = course.blocks.slice(block.index + 1, piece.firstBlock + piece.blocks);
  const follow = after.filter((it) => it.laid.block !== null).length;
  const isEmpty = follow === 0 && pick === piece.firstPick;
  const wrongTail = follow > 0 || isEmpty ? null : wrongTailOf(progress, block.piece);
  return { block, follow, isEmpty, wrongTail };
}

function wrongTailOf(progress: Progress, piece: number): EndHere['wrongTail'] {
  const ended = happened(progress, { kind: 'freeEnded' });
  const tail = ended.dues.find((it) => it.kind === 'endTail' && it.piece === piece);
  return tail?.kind === 'endTail' && tail.wrongSide ? tail : null;
}

export const endPart = () => happen({ kind: 'freeEnded' });

/** Its planned blocks are left out: as one event, so that one undo takes it back. */
export async function endPiece({ progress }: Session): Promise<void> {
  const [{ endingsNow }, { standingOf }] = await Promise.all([
    import('../../../../core/bench/endingsNow.ts'),
    import('../../../../core/bench/standing.ts'),
  ]);
  const { stops } = endingsNow(progress, standingOf(progress), null);
  const here = stops.find((it) => it.place.kind === 'here');
  if (here !== undefined) happen({ kind: 'revised', ...here.revision() });
}
