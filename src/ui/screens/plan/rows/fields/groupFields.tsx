/** Fields of a repeat and of a mirror, in a warp and a weft alike. */
import { LIMITS } from '../../../../../core/plan/limits.ts';
import type { Centre } from '../../../../../core/plan/plan.ts';
import { t } from '../../../../language/t.ts';
import { Choice } from '../../../../parts/choice.tsx';
import { NumberField } from '../../../../parts/numberField.tsx';
import { ProblemsAt } from '../../../../parts/problemsAt.tsx';
import type { RowWords } from '../orderRows.ts';

export type Group =
  | { readonly kind: 'repeat'; readonly times: number }
  | { readonly kind: 'mirror'; readonly centre: Centre };

export interface GroupFieldsProps<G extends Group> {
  readonly group: G;
  readonly path: string;
  readonly set: (group: G, about: string | null) => void;
}

export function GroupFields<G extends Group>({ group, path, set }: GroupFieldsProps<G>) {
  return (
    <>
      {group.kind === 'repeat' ? (
        <NumberField
          label={t('Repeated')}
          unit={t('times')}
          value={group.times}
          least={1}
          most={LIMITS.times}
          path={`${path}.times`}
          onValue={(times) => set({ ...group, times }, `${path}.times`)}
        />
      ) : (
        <Choice
          label={t('The stripe in the middle')}
          chosen={group.centre}
          onChoose={(centre) => set({ ...group, centre }, null)}
          options={[
            { value: 'shared', words: t('once') },
            { value: 'doubled', words: t('twice') },
          ]}
        />
      )}
      <ProblemsAt path={`${path}.of`} />
    </>
  );
}

export function groupWords(group: Group, rows: number): RowWords {
  if (group.kind === 'repeat') {
    return {
      turns: [],
      main: t('{n, plural, one {# time} other {# times}}', { n: group.times }),
      more: t('{n, plural, one {# row} other {# rows}}', { n: rows }),
    };
  }
  const middle =
    group.centre === 'shared' ? t('there and back') : t('there and back, middle twice');
  return { turns: [], main: t('Mirror'), more: middle };
}
