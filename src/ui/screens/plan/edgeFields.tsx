/** How a piece begins or ends. */
import type { Edge, Plan } from '../../../core/plan/plan.ts';
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
  { value: 'hemstitch', words: 'hemstitching' },
  { value: 'hem', words: 'turned hem' },
  { value: 'zigzag', words: 'zigzag seam' },
  { value: 'plain', words: 'plain cloth' },
];

/** An inch and a half: within what practice gives for fringes and hems alike. */
const USUAL = 38.1;

export function EdgeFields({ label, edge, plan, path, onEdge }: EdgeFieldsProps) {
  return (
    <div class="edge-fields">
      <Choice
        label={label}
        chosen={edge.kind}
        onChoose={(kind) => onEdge(edgeOf(kind, edge), null)}
        options={EDGES}
      />
      {edge.kind === 'hemstitch' ? (
        <>
          <LengthField
            label="Finished fringe"
            mm={edge.fringe}
            units={plan.units}
            path={`${path}.fringe`}
            onLength={(fringe) => onEdge({ ...edge, fringe }, 'fringe')}
          />
          <Choice
            label="The fringe is"
            chosen={edge.twisted ? 'twisted' : 'loose'}
            onChoose={(it) => onEdge({ ...edge, twisted: it === 'twisted' }, null)}
            options={[
              { value: 'loose', words: 'left loose' },
              { value: 'twisted', words: 'twisted' },
            ]}
          />
        </>
      ) : (
        <>
          <LengthField
            label={edge.kind === 'hem' ? 'Turned under, washed' : 'Allowance, washed'}
            mm={edge.washedAllowance}
            units={plan.units}
            path={`${path}.washedAllowance`}
            onLength={(washedAllowance) => onEdge({ ...edge, washedAllowance }, 'allowance')}
          />
          <Choice
            label="Woven in"
            chosen={edge.yarn ?? ''}
            onChoose={(letter) => onEdge(inYarn(edge, letter), null)}
            options={[
              { value: '', words: 'the yarn next to it' },
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

function edgeOf(kind: Edge['kind'], before: Edge): Edge {
  if (kind === 'hemstitch') {
    return { kind, fringe: before.kind === 'hemstitch' ? before.fringe : USUAL, twisted: false };
  }
  return { kind, washedAllowance: before.kind === 'hemstitch' ? USUAL : before.washedAllowance };
}
