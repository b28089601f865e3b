/** One of several pieces; nothing where there is only one. */

import type { Plan } from '../../../core/plan/plan.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';

export interface PieceTabsProps {
  readonly plan: Plan;
  /** Counted from 0. */
  readonly pieces: readonly number[];
  readonly chosen: number;
  readonly onChoose: (piece: number) => void;
}

export function PieceTabs({ plan, pieces, chosen, onChoose }: PieceTabsProps) {
  if (pieces.length < 2) return null;
  return (
    <Choice
      label={t('Piece')}
      chosen={chosen}
      onChoose={onChoose}
      options={pieces.map((piece) => ({
        value: piece,
        words: `${piece + 1}. ${plan.pieces[piece]?.name ?? ''}`,
      }))}
    />
  );
}
