/** The yarns as the buttons: each tap throws a turn of one. Loaded when a part woven by eye is reached. */
import { type YarnToThrow, yarnsToThrow } from '../../../../core/bench/byEye/yarnsToThrow.ts';
import { yarnAt } from '../../../../core/bench/pickAt.ts';
import type { Yarn } from '../../../../core/plan/plan.ts';
import { throwOf } from '../../../actions.ts';
import { keepAwake } from '../../../device/wakeLock.ts';
import { SIDE_WORDS } from '../../../format.ts';
import { t, tParts } from '../../../language/t.ts';
import { Swatch } from '../../../parts/swatch.tsx';
import { notice, type Session, settings } from '../../../state.ts';
import '../../../style/byEye.css';
import { ARROWS, handNote, shortNote } from './byEyeWords.ts';

interface BarProps {
  readonly now: Session;
  readonly onMore: () => void;
}

export function ByEyeBar({ now, onMore }: BarProps) {
  const { plan, progress } = now;
  const picks = settings.value.turnPicks;
  const inHand = yarnAt(progress.course, progress.pick);
  const size = sizeFor(plan.yarns.length);
  return (
    <div class="eye-bar" data-size={size}>
      {notice.value === null ? null : (
        <p class="eye-notice" role="status">
          {notice.value}
        </p>
      )}
      <div class="eye-yarns">
        {yarnsToThrow(progress.course, progress.pick).map((it) => {
          const yarn = plan.yarns[it.yarn];
          return yarn === undefined ? null : (
            <YarnButton
              key={yarn.letter}
              yarn={yarn}
              it={it}
              picks={picks}
              inHand={it.yarn === inHand}
              note={size === 'wide' ? handNote(it) : shortNote(it)}
            />
          );
        })}
      </div>
      <button type="button" class="button bench eye-more" onClick={onMore} aria-haspopup="dialog">
        <span class="eye-more-title">{t('By eye ⋯')}</span>
        <span class="eye-turn">
          {picks === 1
            ? tParts('{n} pick a tap', { n: <b>1</b> })
            : tParts('{n} picks a tap', { n: <b>{picks}</b> })}
        </span>
      </button>
    </div>
  );
}

/** With many yarns there is only room for their names under the letters. */
function sizeFor(yarns: number): 'wide' | 'narrow' {
  return yarns <= 3 ? 'wide' : 'narrow';
}

interface ButtonProps {
  readonly yarn: Yarn;
  readonly it: YarnToThrow;
  readonly picks: number;
  /** The one that throwing area and pedal throw. */
  readonly inHand: boolean;
  readonly note: string;
}

function YarnButton({ yarn, it, picks, inHand, note }: ButtonProps) {
  return (
    <button
      type="button"
      class="button bench eye-yarn"
      data-yarn={yarn.letter}
      data-in-hand={inHand}
      onClick={(event) => {
        throwOf(yarn.letter, picks, event.timeStamp);
        void keepAwake();
      }}
    >
      <Swatch yarn={yarn} />
      <span class="eye-words">
        <strong>{yarn.name}</strong>
        <span>
          <span aria-hidden="true">{ARROWS[it.from]}</span>{' '}
          <span class="eye-from">{t('from')} </span>
          {SIDE_WORDS[it.from]}
        </span>
        <span class="eye-note">{note}</span>
        <span class="unseen">{t('{n, plural, one {# pick} other {# picks}}', { n: picks })}</span>
      </span>
    </button>
  );
}
