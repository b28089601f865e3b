/** A yarn in a list: its button opens what can be changed of it, and closes it again. */
import type { ComponentChildren } from 'preact';
import type { Yarn } from '../../core/plan/plan.ts';
import '../style/yarnDoor.css';
import { Swatch } from './swatch.tsx';
import { countWords } from './yarnWords.ts';

export interface YarnDoorProps {
  readonly yarn: Yarn;
  readonly isOpen: boolean;
  readonly onTurn: () => void;
  /** What stands below the button while it is open. */
  readonly children: ComponentChildren;
}

export function YarnDoor({ yarn, isOpen, onTurn, children }: YarnDoorProps) {
  return (
    <>
      <button type="button" class="button yarn-door" aria-expanded={isOpen} onClick={onTurn}>
        <Swatch yarn={yarn} />
        <span>
          <strong>{yarn.name}</strong> {countWords(yarn.count)}
        </span>
        <span aria-hidden="true">{isOpen ? '▴' : '▾'}</span>
      </button>
      {isOpen ? <div class="yarn-behind">{children}</div> : null}
    </>
  );
}
