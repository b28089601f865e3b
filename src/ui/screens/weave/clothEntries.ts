/** Entries of the More sheet about what was woven: to look at it, and to weave it again. */
import { pieceAt } from '../../../core/bench/pickAt.ts';
import { chooseStretch, showAgainst, showMotifs } from '../../motifPages.ts';
import type { Session } from '../../state.ts';

export function clothEntries({ progress }: Session) {
  const piece = pieceAt(progress.course, Math.max(0, progress.pick - 1)).index;
  return [
    {
      title: 'Choose a stretch',
      text: 'To weave it again, or keep it',
      off: progress.pick === 0,
      work: () => chooseStretch(piece),
    },
    { title: 'Motifs', text: 'Kept stretches, to weave again', off: false, work: showMotifs },
    {
      title: 'Planned and woven',
      text: 'Block by block, and as woven',
      off: false,
      work: () => showAgainst(piece),
    },
  ];
}
