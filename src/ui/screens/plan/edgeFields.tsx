/** How a piece begins or ends. */
import { MM_PER_INCH, type Mm, type Units } from '../../../core/measure/length.ts';
import type { Edge, Plan } from '../../../core/plan/plan.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { ProblemsAt } from '../../parts/problemsAt.tsx';

export interface EdgeFieldsProps {
  readonly label: string;
  readonly edge: Edge;
  readonly plan: Plan;
  readonly path: string;
  readonly onEdge: (edge: Edge, about: string | null) => void;
}

const EDGES: readonly { readonly value: Edge['kind']; readonly words: string }[] = [
  { value: 'hemstitch', words: t('hemstitching') },
  { value: 'hem', words: t('turned hem') },
  { value: 'zigzag', words: t('zigzag seam') },
  { value: 'plain', words: t('plain cloth') },
];

/** Within what practice gives for fringes and hems alike, and round in either unit. */
const USUAL: Record<Units, Mm> = { inch: 1.5 * MM_PER_INCH, metric: 40 };

export function EdgeFields({ label, edge, plan, path, onEdge }: EdgeFieldsProps) {
  return (
    <div class="edge-fields">
      <Choice
        label={label}
        chosen={edge.kind}
        onChoose={(kind) => onEdge(edgeOf(kind, edge, USUAL[plan.units]), null)}
        options={EDGES}
      />
      {edge.kind === 'hemstitch' ? (
        <>
          <LengthField
            label={t('Finished fringe')}
            mm={edge.fringe}
            units={plan.units}
            path={`${path}.fringe`}
            onLength={(fringe) => onEdge({ ...edge, fringe }, 'fringe')}
          />
          <Choice
            label={t('The fringe is')}
            chosen={edge.twisted ? 'twisted' : 'loose'}
            onChoose={(it) => onEdge({ ...edge, twisted: it === 'twisted' }, null)}
            options={[
              { value: 'loose', words: t('left loose') },
              { value: 'twisted', words: t('twisted') },
            ]}
          />
        </>
      ) : (
        <>
          <LengthField
            label={edge.kind === 'hem' ? t('Turned under, washed') : t('Allowance, washed')}
            mm={edge.washedAllowance}
            units={plan.units}
            path={`${path}.washedAllowance`}
            onLength={(washedAllowance) => onEdge({ ...edge, washedAllowance }, 'allowance')}
          />
          <Choice
            label={t('Woven in')}
            chosen={edge.yarn ?? ''}
            onChoose={(letter) => onEdge(inYarn(edge, letter), null)}
            options={[
              { value: '', words: t('the yarn next to it') },
              ...plan.yarns.map(({ letter, name }) => ({
                value: letter,
                words: `${letter} ${name}`,
              })),
            ]}
          />
          <ProblemsAt path={`${path}.yarn`} />
        </>
      )}
    </div>
  );
}

type Seam = Exclude<Edge, { kind: 'hemstitch' }>;

function inYarn(edge: Seam, letter: string): Seam {
  const { yarn: _old, ...rest } = edge;
  return letter === '' ? rest : { ...rest, yarn: letter };
}

function edgeOf(kind: Edge['kind'], before: Edge, usual: Mm): Edge {
  if (kind === 'hemstitch') {
    return { kind, fringe: before.kind === 'hemstitch' ? before.fringe : usual, twisted: false };
  }
  return { kind, washedAllowance: before.kind === 'hemstitch' ? usual : before.washedAllowance };
}
