/** The buttons round the picture: how the cloth is shown, and a button for everything a finger does. */

import { CLOTH_STATES, type ClothState } from '../../../core/planner/clothPlan.ts';
import { t } from '../../language/t.ts';
import { DISTANCE_WORDS, DISTANCES, type Distance } from './distance.ts';

const STATE_WORDS: Readonly<Record<ClothState, string>> = {
  loom: t('On the loom'),
  washed: t('Washed'),
};

export interface LookBarProps {
  readonly state: ClothState;
  readonly onState: (state: ClothState) => void;
  readonly distance: Distance;
  readonly onDistance: (distance: Distance) => void;
}

export function LookBar({ state, onState, distance, onDistance }: LookBarProps) {
  return (
    <div class="viewer-bar">
      <Segments
        label={t('The cloth')}
        options={CLOTH_STATES}
        words={STATE_WORDS}
        chosen={state}
        onChoose={onState}
      />
      <Segments
        label={t('Seen from')}
        options={DISTANCES}
        words={DISTANCE_WORDS}
        chosen={distance}
        onChoose={onDistance}
      />
    </div>
  );
}

interface SegmentsProps<T extends string> {
  readonly label: string;
  readonly options: readonly T[];
  readonly words: Readonly<Record<T, string>>;
  readonly chosen: T;
  readonly onChoose: (value: T) => void;
}

function Segments<T extends string>({ label, options, words, chosen, onChoose }: SegmentsProps<T>) {
  return (
    <fieldset class="segments">
      <legend class="unseen">{label}</legend>
      {options.map((value) => (
        <button
          type="button"
          key={value}
          class="segment"
          aria-pressed={chosen === value}
          onClick={() => onChoose(value)}
        >
          {words[value]}
        </button>
      ))}
    </fieldset>
  );
}

export interface MoveBarProps {
  /** As the keys of a keyboard do. */
  readonly onPress: (key: string) => void;
  /** Whether the files are offered. */
  readonly isSaving: boolean;
  readonly onSave: () => void;
}

const MOVES = [
  ['ArrowLeft', t('Move left'), 'M14 5 7 12l7 7'],
  ['ArrowRight', t('Move right'), 'm10 5 7 7-7 7'],
  ['ArrowUp', t('Move up'), 'm5 14 7-7 7 7'],
  ['ArrowDown', t('Move down'), 'm5 10 7 7 7-7'],
  ['-', t('Smaller'), 'M5 12h14'],
  ['+', t('Larger'), 'M5 12h14M12 5v14'],
] as const;

export function MoveBar({ onPress, isSaving, onSave }: MoveBarProps) {
  return (
    <div class="viewer-bar">
      <div class="viewer-moves">
        {MOVES.map(([key, words, path]) => (
          <button
            type="button"
            key={key}
            class="viewer-move"
            aria-label={words}
            onClick={() => onPress(key)}
          >
            <svg viewBox="0 0 24 24" aria-hidden="true">
              <path d={path} />
            </svg>
          </button>
        ))}
      </div>
      <button type="button" class="button" onClick={() => onPress('0')}>
        {t('Whole')}
      </button>
      <button type="button" class="button viewer-last" aria-expanded={isSaving} onClick={onSave}>
        {t('Save picture')}
      </button>
    </div>
  );
}
