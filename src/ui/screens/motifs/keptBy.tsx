/** What stays the same on another warp: asked only where it makes a difference. */

import type { KeptBy } from '../../../core/planner/motif/changes.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';

export interface KeptByChoiceProps {
  readonly chosen: KeptBy;
  readonly onChoose: (by: KeptBy) => void;
}

export function KeptByChoice({ chosen, onChoose }: KeptByChoiceProps) {
  return (
    <Choice
      label={t('The beat is another there. It keeps its')}
      chosen={chosen}
      onChoose={onChoose}
      options={[
        { value: 'picks', words: t('Picks') },
        { value: 'length', words: t('Length') },
      ]}
    />
  );
}
