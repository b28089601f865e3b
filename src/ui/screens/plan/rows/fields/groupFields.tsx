/** Fields of a repeat and of a mirror, in a warp and a weft alike. */
import { LIMITS } from '../../../../../core/plan/limits.ts';
import type { Centre } from '../../../../../core/plan/plan.ts';
import { count } from '../../../../format.ts';
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
          label="Repeated"
          unit="times"
          value={group.times}
          least={1}
          most={LIMITS.times}
          path={`${path}.times`}
          onValue={(times) => set({ ...group, times }, `${path}.times`)}
        />
      ) : (
        <Choice
          label="The stripe in the middle"
          chosen={group.centre}
          onChoose={(centre) => set({ ...group, centre }, null)}
          options={[
            { value: 'shared', words: 'once' },
            { value: 'doubled', words: 'twice' },
          ]}
        />
      )}
      <ProblemsAt path={`${path}.of`} />
    </>
  );
}

export function groupWords(group: Group, rows: number): RowWords {
  if (group.kind === 'repeat') {
    return { turns: [], main: count(group.times, 'time'), more: count(rows, 'row') };
  }
  const middle = group.centre === 'shared' ? 'there and back' : 'there and back, middle twice';
  return { turns: [], main: 'Mirror', more: middle };
}
