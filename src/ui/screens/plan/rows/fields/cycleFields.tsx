/** The turns of an alternation: which yarns, in which order, each with its own number of threads. */

import { LIMITS } from '../../../../../core/plan/limits.ts';
import { removed, replaced } from '../../../../../core/plan/listEdits.ts';
import type { Letter, Yarn } from '../../../../../core/plan/plan.ts';
import { t } from '../../../../language/t.ts';
import { NumberField } from '../../../../parts/numberField.tsx';
import { ProblemsAt } from '../../../../parts/problemsAt.tsx';
import { YarnPicker } from './yarnPicker.tsx';

export interface Turn {
  readonly yarn: Letter;
  readonly count: number;
}

export interface CycleFieldsProps {
  readonly cycle: readonly Turn[];
  readonly yarns: readonly Yarn[];
  readonly thread: 'ends' | 'picks';
  readonly most: number;
  /** Of the cycle in the plan. */
  readonly path: string;
  readonly onCycle: (cycle: readonly Turn[], about: string | null) => void;
}

export function CycleFields({ cycle, yarns, thread, most, path, onCycle }: CycleFieldsProps) {
  return (
    <div class="cycle">
      {cycle.map((turn, i) => (
        <TurnFields
          key={`turn ${i + 1}`}
          turn={turn}
          n={i + 1}
          yarns={yarns}
          thread={thread}
          most={most}
          path={`${path}[${i}]`}
          onTurn={(next, about) => onCycle(replaced(cycle, i, next), about)}
          {...(cycle.length > 2 ? { onRemove: () => onCycle(removed(cycle, i), null) } : {})}
        />
      ))}
      {cycle.length < LIMITS.yarns ? (
        <button
          type="button"
          class="button"
          data-anchor="add-turn"
          onClick={() => onCycle([...cycle, nextTurn(cycle, yarns)], null)}
        >
          {t('One more yarn in turn')}
        </button>
      ) : null}
      <ProblemsAt path={path} />
    </div>
  );
}

interface TurnFieldsProps {
  readonly turn: Turn;
  readonly n: number;
  readonly yarns: readonly Yarn[];
  readonly thread: 'ends' | 'picks';
  readonly most: number;
  readonly path: string;
  readonly onTurn: (turn: Turn, about: string | null) => void;
  readonly onRemove?: () => void;
}

function TurnFields({ turn, n, yarns, thread, most, path, onTurn, onRemove }: TurnFieldsProps) {
  return (
    <div class="turn">
      <YarnPicker
        label={t(
          '{n, select, 1 {First} 2 {Second} 3 {Third} 4 {Fourth} 5 {Fifth} 6 {Sixth} other {{n}th}} yarn',
          { n },
        )}
        yarns={yarns}
        chosen={turn.yarn}
        path={`${path}.yarn`}
        onChoose={(yarn) => onTurn({ ...turn, yarn }, null)}
      />
      <NumberField
        label={thread === 'ends' ? t('Ends a turn') : t('Picks a turn')}
        value={turn.count}
        least={1}
        most={most}
        path={`${path}.${thread}`}
        onValue={(count) => onTurn({ ...turn, count }, `${path}.${thread}`)}
      />
      {onRemove === undefined ? null : (
        <button
          type="button"
          class="button quiet turn-remove"
          aria-label={t(
            'Take out the {n, select, 1 {first} 2 {second} 3 {third} 4 {fourth} 5 {fifth} 6 {sixth} other {{n}th}} yarn',
            { n },
          )}
          onClick={onRemove}
        >
          ✕
        </button>
      )}
    </div>
  );
}

/** A yarn that is not in the cycle yet, else one that differs from both its neighbours. */
function nextTurn(cycle: readonly Turn[], yarns: readonly Yarn[]): Turn {
  const [first, last] = [cycle.at(0), cycle.at(-1)];
  const fresh = yarns.find((yarn) => !cycle.some((turn) => turn.yarn === yarn.letter));
  const other = yarns.find(({ letter }) => letter !== first?.yarn && letter !== last?.yarn);
  return {
    yarn: (fresh ?? other ?? yarns[0])?.letter ?? 'A',
    count: last?.count ?? 2,
  };
}
