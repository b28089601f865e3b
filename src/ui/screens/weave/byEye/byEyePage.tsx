/** Everything about weaving by eye that is not a pick: how many a tap is, lengths, and where it ends. */
import { changeSettings } from '../../../actions.ts';
import { length } from '../../../format.ts';
import { t } from '../../../language/t.ts';
import { Choice } from '../../../parts/choice.tsx';
import { Stepper } from '../../../parts/stepper.tsx';
import { type Session, settings } from '../../../state.ts';
import type { Page } from '../moreSheet.tsx';
import { type EndHere, endHere, endPart, endPiece } from './endingByEye.ts';

interface PageProps {
  readonly now: Session;
  readonly onPage: (page: Page) => void;
  readonly onClose: () => void;
}

const QUICK = [1, 2, 3, 4, 6, 8] as const;
const MOST = 99;

export function ByEyePage({ now, onPage, onClose }: PageProps) {
  const end = endHere(now.progress);
  const turnPicks = settings.value.turnPicks;
  return (
    <div class="form">
      <Choice<number>
        label={t('Picks a tap on a yarn stands for')}
        chosen={turnPicks}
        onChoose={(it) => {
          changeSettings({ turnPicks: it });
          onClose();
        }}
        options={QUICK.map((value) => ({ value, words: String(value) }))}
      />
      <Stepper
        label={t('Or any number')}
        value={turnPicks}
        least={1}
        most={MOST}
        onChange={(it) => changeSettings({ turnPicks: it })}
      />
      <p class="hint">{t('Throwing area and pedal throw one pick of the yarn thrown last.')}</p>
      <div class="menu">
        <Entry
          title={t('Log a length')}
          text={t('For a long solid: picks worked out from it')}
          onUse={() => onPage('length')}
        />
        <Entry
          title={t('Several picks')}
          text={t('Count a few of one yarn at once')}
          onUse={() => onPage('picks')}
        />
        {end === null ? null : <Ends now={now} end={end} onClose={onClose} />}
      </div>
    </div>
  );
}

interface EndsProps {
  readonly now: Session;
  readonly end: EndHere;
  readonly onClose: () => void;
}

function Ends({ now, end, onClose }: EndsProps) {
  const after = (work: unknown) => {
    void work;
    onClose();
  };
  const goesOn = end.follow > 0;
  return (
    <>
      <Entry
        title={goesOn ? t('End this part') : t('End the piece here')}
        text={
          goesOn
            ? t('{n, plural, one {# planned block} other {# planned blocks}} to follow', {
                n: end.follow,
              })
            : endWords(now, end)
        }
        off={end.isEmpty}
        onUse={() => after(endPart())}
      />
      {goesOn ? (
        <Entry
          title={t('End the piece here')}
          text={t('Its planned blocks are left out')}
          off={now.progress.pick === now.progress.course.pieces[end.block.piece]?.firstPick}
          onUse={() => after(endPiece(now))}
        />
      ) : null}
    </>
  );
}

function endWords({ plan, progress }: Session, { block, isEmpty, wrongTail }: EndHere): string {
  if (isEmpty) return t('Nothing of it is woven yet');
  if (wrongTail !== null)
    return t(
      'The tail would fall on the {side, select, left {left} other {right}}, away from your working side: throw one pick more first?',
      { side: wrongTail.side },
    );
  const piece = progress.course.pieces[block.piece];
  return t('After {n, plural, one {# pick} other {# picks}}, {length}', {
    n: progress.pick - (piece?.firstPick ?? 0),
    length: length(block.loomStart + block.loomLength, plan.units),
  });
}

interface EntryProps {
  readonly title: string;
  readonly text: string;
  readonly off?: boolean;
  readonly onUse: () => void;
}

function Entry({ title, text, off, onUse }: EntryProps) {
  return (
    <button type="button" class="button menu-button" disabled={off === true} onClick={onUse}>
      <strong>{title}</strong>
      <span>{text}</span>
    </button>
  );
}
