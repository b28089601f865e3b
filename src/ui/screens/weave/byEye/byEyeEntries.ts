/** What the menu of the bench offers by eye. */
import { onePieceMore } from '../../../../core/bench/byEye/onePieceMore.ts';
import { freeAtFell } from '../../../../core/bench/byEye/throwing.ts';
import { happen } from '../../../actions.ts';
import { t } from '../../../language/t.ts';
import type { Session } from '../../../state.ts';
import type { MenuEntry } from '../moreSheet.tsx';

export const isOpenHere = ({ progress }: Session) =>
  freeAtFell(progress.course, progress.pick) !== null;

/** Turns and ends by eye; once all is woven one piece more, on the warp that is left. */
export function byEyeEntries(now: Session): readonly MenuEntry[] {
  const from = now.progress.course.pieces.length;
  if (isOpenHere(now))
    return [
      { title: t('By eye'), text: t('Picks a tap, ending the part'), off: false, page: 'eye' },
    ];
  const piece = onePieceMore(now.progress);
  if (piece === null) return [];
  return [
    {
      title: t('One piece more'),
      text: t('By eye, on the warp that is left'),
      off: false,
      work: () => happen({ kind: 'revised', from, pieces: [piece] }),
    },
  ];
}
