/** Find my place: what lies at the fell decides; the nearest matching pick is proposed. */
import { useState } from 'preact/hooks';
import { findPlaces, type Place, picksAtFell } from '../../../core/bench/findPlace.ts';
import { pickAt, pieceAt } from '../../../core/bench/pickAt.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import { lengthOfPiece } from '../../../core/bench/tape.ts';
import { type Plan, SHED_WORDS, SIDES, type Side } from '../../../core/plan/plan.ts';
import { happen } from '../../actions.ts';
import { length, SIDE_WORDS, shedWord } from '../../format.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { Stepper } from '../../parts/stepper.tsx';

interface PlaceProps {
  readonly plan: Plan;
  readonly progress: Progress;
}

export function PlaceSheet({
  plan,
  progress,
  onClose,
}: PlaceProps & { readonly onClose: () => void }) {
  return (
    <Sheet title={t('Look at the loom')} onClose={onClose}>
      <PlaceForm plan={plan} progress={progress} onDone={onClose} />
    </Sheet>
  );
}

interface PlaceFormProps extends PlaceProps {
  readonly onDone: () => void;
}

export function PlaceForm({ plan, progress, onDone }: PlaceFormProps) {
  const [seen, setSeen] = useState(() => seenFrom(progress));
  const places = findPlaces(progress.course, progress.pick, seen, 3);
  const settle = (place: Place) => {
    const letter = plan.yarns[seen.yarn]?.letter ?? '';
    const shed = SHED_WORDS[plan.loom.kind][seen.nextShed];
    happen({ kind: 'placed', pick: place.pick, shed, sides: { [letter]: seen.side } });
    onDone();
  };
  return (
    <div class="form">
      <SeenForm plan={plan} seen={seen} onSeen={setSeen} />
      <h3>
        {places.length === 0 ? t('No place in this piece ends like that') : t('You may be here')}
      </h3>
      {places.map((place) => (
        <button
          type="button"
          key={place.pick}
          class="button strong place"
          onClick={() => settle(place)}
        >
          {placeWords(plan, progress, place)}
        </button>
      ))}
    </div>
  );
}

interface Seen {
  readonly yarn: number;
  readonly picks: number;
  readonly nextShed: 0 | 1;
  readonly side: Side;
}

/** What the plan expects at the fell: the form starts there, so that agreeing is one tap. */
function seenFrom({ course, pick }: Progress): Seen {
  const here = picksAtFell(course, pick);
  const last = pickAt(course, pick - 1);
  return {
    yarn: here?.yarn ?? 0,
    picks: here?.picks ?? 1,
    nextShed: last?.shed === 0 ? 1 : 0,
    side: last?.from === 'left' ? 'right' : 'left',
  };
}

interface SeenFormProps {
  readonly plan: Plan;
  readonly seen: Seen;
  readonly onSeen: (seen: Seen) => void;
}

function SeenForm({ plan, seen, onSeen }: SeenFormProps) {
  return (
    <>
      <Choice
        label={t('Yarn of the last pick at the fell')}
        chosen={seen.yarn}
        onChoose={(yarn) => onSeen({ ...seen, yarn })}
        options={plan.yarns.map((it, value) => ({ value, words: `${it.letter} ${it.name}` }))}
      />
      <Stepper
        label={t('Picks of it, counted back from the fell')}
        value={seen.picks}
        least={1}
        most={999}
        onChange={(picks) => onSeen({ ...seen, picks })}
      />
      <Choice<0 | 1>
        label={t('Shed for the next pick')}
        chosen={seen.nextShed}
        onChoose={(nextShed) => onSeen({ ...seen, nextShed })}
        options={[
          { value: 0, words: shedWord(plan.loom.kind, 0) },
          { value: 1, words: shedWord(plan.loom.kind, 1) },
        ]}
      />
      <Choice<Side>
        label={t('Its shuttle lies on the')}
        chosen={seen.side}
        onChoose={(side) => onSeen({ ...seen, side })}
        options={SIDES.map((value) => ({ value, words: SIDE_WORDS[value] }))}
      />
    </>
  );
}

function placeWords(plan: Plan, { course }: Progress, place: Place): string {
  // The piece of the last pick woven: between two pieces it is the one that ends.
  const piece = pieceAt(course, place.pick - 1);
  const at = length(lengthOfPiece(course, piece, place.pick), plan.units);
  const name = course.pieces.length > 1 ? plan.pieces[piece.index]?.name : undefined;
  const set = `${place.shedAgrees ? '' : 'shed'}${place.sideAgrees ? '' : 'side'}`;
  return t(
    'After pick {pick} of {name}, about {at}{set, select, shed {, shed set as told} side {, side set as told} shedside {, shed and side set as told} other {}}',
    { pick: place.pick - piece.firstPick, name: name ?? t('the piece'), at, set },
  );
}
