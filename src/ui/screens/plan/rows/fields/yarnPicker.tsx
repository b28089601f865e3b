/** A yarn chosen by tapping its swatch; the letter always stands with the colour. */
import type { Letter, Yarn } from '../../../../../core/plan/plan.ts';
import { ProblemsAt } from '../../../../parts/problemsAt.tsx';
import { Swatch } from '../../../../parts/swatch.tsx';
import { yarnOf } from '../orderRows.ts';

export interface YarnPickerProps {
  readonly label: string;
  readonly yarns: readonly Yarn[];
  readonly chosen: Letter | null;
  readonly onChoose: (letter: Letter) => void;
  /** Words for a choice of none, where that is one. */
  readonly none?: { readonly words: string; readonly onChoose: () => void };
  readonly path?: string;
}

export function YarnPicker({ label, yarns, chosen, onChoose, none, path }: YarnPickerProps) {
  const isUnknown = chosen !== null && !yarns.some((yarn) => yarn.letter === chosen);
  const offered = isUnknown ? [...yarns, yarnOf(yarns, chosen)] : yarns;
  return (
    <div class="field">
      <fieldset class="yarn-picker">
        <legend class="field-label">{label}</legend>
        {none === undefined ? null : (
          <button
            type="button"
            class="button pick-none"
            aria-pressed={chosen === null}
            onClick={none.onChoose}
          >
            {none.words}
          </button>
        )}
        {offered.map((yarn) => (
          <button
            type="button"
            key={yarn.letter}
            class="button pick-yarn"
            aria-pressed={yarn.letter === chosen}
            aria-label={`${yarn.letter} ${yarn.name}`}
            onClick={() => onChoose(yarn.letter)}
          >
            <Swatch yarn={yarn} />
          </button>
        ))}
      </fieldset>
      {path === undefined ? null : <ProblemsAt path={path} />}
    </div>
  );
}
