/** Find my place by a number: the piece and the pick, as the loom card counts them. */
import { useState } from 'preact/hooks';
import { pickOfPiece } from '../../../core/bench/findPlace.ts';
import { type PickFacts, pieceAt } from '../../../core/bench/pickAt.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import { SHED_WORDS } from '../../../core/plan/plan.ts';
import { happen } from '../../actions.ts';
import { callWords } from '../../hearing/callWords.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { Keypad } from '../../parts/keypad.tsx';
import { PlaceForm } from './placeSheet.tsx';
import '../../style/padForm.css';

interface PlacePageProps {
  readonly progress: Progress;
  readonly onDone: () => void;
}

/** What is known decides: what lies at the fell, or the pick. */
export function PlacePage({ progress, onDone }: PlacePageProps) {
  const [by, setBy] = useState<'fell' | 'pick'>('fell');
  return (
    <div class="form">
      <Choice<'fell' | 'pick'>
        label={t('What is known')}
        chosen={by}
        onChoose={setBy}
        options={[
          { value: 'fell', words: t('What lies at the fell') },
          { value: 'pick', words: t('The pick, as on the loom card') },
        ]}
      />
      {by === 'fell' ? (
        <PlaceForm key="fell" plan={progress.course.plan} progress={progress} onDone={onDone} />
      ) : (
        <ByPick key="pick" progress={progress} onDone={onDone} />
      )}
    </div>
  );
}

function ByPick({ progress, onDone }: PlacePageProps) {
  const { course, pick } = progress;
  const { plan } = course;
  const [piece, setPiece] = useState(pieceAt(course, pick).index);
  const [typed, setTyped] = useState('');
  const next = pickOfPiece(course, piece, Number(typed));
  return (
    <div class="form">
      {course.pieces.length === 1 ? null : (
        <Choice
          label={t('The piece on the loom')}
          chosen={piece}
          onChoose={setPiece}
          options={plan.pieces.map(({ name }, value) => ({ value, words: name }))}
        />
      )}
      <h3>{t('The pick to throw next')}</h3>
      <Keypad
        typed={typed}
        shown={t('{n} of {all}', { n: typed || '–', all: course.pieces[piece]?.picks ?? 0 })}
        decimal={null}
        fractions={[]}
        onType={setTyped}
      />
      <div class="pad-save">
        <p role="status">{next === null ? t('Type its number.') : nextWords(progress, next)}</p>
        <button
          type="button"
          class="button strong"
          disabled={next === null}
          onClick={() => {
            if (next !== null) placeAt(progress, next);
            onDone();
          }}
        >
          {t('Weave on from there')}
        </button>
      </div>
    </div>
  );
}

/** Yarn, side and shed there, to be held against the cloth before it counts. */
function nextWords(progress: Progress, facts: PickFacts): string {
  const { done, picks } = facts.stripe;
  const spoken = { kind: 'turn', goesOn: done > 0, left: picks - done, facts } as const;
  return callWords(progress, [spoken]).join(' ');
}

/** Shed and sides are those of the plan there; the words above said them. */
function placeAt({ course }: Progress, { pick, shed }: PickFacts): void {
  const [first, second] = SHED_WORDS[course.plan.loom.kind];
  happen({ kind: 'placed', pick, shed: shed === 0 ? first : second, sides: {} });
}
