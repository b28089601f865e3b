/** Yarn for yarn: which yarn there each yarn of a motif's weft becomes. */

import type { Motif } from '../../../core/plan/motif.ts';
import type { Letter, Yarn } from '../../../core/plan/plan.ts';
import { weftLetters } from '../../../core/planner/motif/changes.ts';
import { t } from '../../language/t.ts';
import { YarnPicker } from '../plan/rows/fields/yarnPicker.tsx';
import '../../style/rows.css';

export type Letters = ReadonlyMap<Letter, Letter | null>;

export interface YarnRowsProps {
  readonly motif: Motif;
  /** The yarns to choose from. */
  readonly yarns: readonly Yarn[];
  readonly letters: Letters;
  readonly onLetters: (letters: Letters) => void;
  /** What none of them means, where that is a choice. */
  readonly none?: string;
}

export function YarnRows({ motif, yarns, letters, onLetters, none }: YarnRowsProps) {
  const set = (letter: Letter, to: Letter | null) => onLetters(new Map([...letters, [letter, to]]));
  return (
    <div class="motif-yarns">
      {weftLetters(motif).map((letter) => {
        const name = motif.yarns.find((it) => it.letter === letter)?.name ?? letter;
        return (
          <YarnPicker
            key={letter}
            label={t('{letter} {name}, woven in', { letter, name })}
            yarns={yarns}
            chosen={letters.get(letter) ?? null}
            onChoose={(to) => set(letter, to)}
            {...(none === undefined
              ? {}
              : { none: { words: none, onChoose: () => set(letter, null) } })}
          />
        );
      })}
    </div>
  );
}

/** Every yarn has another to be woven in. */
export function isWhole(motif: Motif, letters: Letters): boolean {
  return weftLetters(motif).every((letter) => (letters.get(letter) ?? null) !== null);
}

/** Only the letters that have one. */
export function known(letters: Letters): ReadonlyMap<Letter, Letter> {
  return new Map([...letters].flatMap(([from, to]) => (to === null ? [] : [[from, to] as const])));
}
