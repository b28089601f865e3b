/** What a block is planned by: its extent follows. */
import type { Extent } from '../../../../../core/planner/blockEdits.ts';
import { t } from '../../../../language/t.ts';
import { Choice } from '../../../../parts/choice.tsx';

interface Props<K extends Extent['kind']> {
  readonly kinds: readonly K[];
  readonly chosen: K;
  readonly onChoose: (kind: K) => void;
}

export function PlannedBy<K extends Extent['kind']>({ kinds, chosen, onChoose }: Props<K>) {
  const words: Record<Extent['kind'], string> = {
    length: t('length'),
    turns: t('turns'),
    picks: t('picks'),
  };
  return (
    <Choice
      label={t('Planned by')}
      chosen={chosen}
      onChoose={onChoose}
      options={kinds.map((value) => ({ value, words: words[value] }))}
    />
  );
}
