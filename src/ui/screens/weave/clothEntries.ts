/** Entries of the More sheet about what was woven: to look at it, and to weave it again. */
import { pieceAt } from '../../../core/bench/pickAt.ts';
import { t } from '../../language/t.ts';
import { chooseStretch, showAgainst, showMotifs } from '../../motifPages.ts';
import type { Session } from '../../state.ts';

export function clothEntries({ progress }: Session) {
  const piece = pieceAt(progress.course, Math.max(0, progress.pick - 1)).index;
  return [
    {
      title: t('Choose a stretch'),
      text: t('To weave it again, or keep it'),
      off: progress.pick === 0,
      work: () => chooseStretch(piece),
    },
    {
      title: t('Motifs'),
      text: t('Kept stretches, to weave again'),
      off: false,
      work: showMotifs,
    },
    {
      title: t('Planned and woven'),
      text: t('Block by block, and as woven'),
      off: false,
      work: () => showAgainst(piece),
    },
  ];
}
