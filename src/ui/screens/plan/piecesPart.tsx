/** The pieces on this warp: in order, each with its wish, its edges and its weft. */

import { useState } from 'preact/hooks';
import { moved, removed, replaced } from '../../../core/plan/listEdits.ts';
import { type Piece, type Plan, SHED_WORDS, WISH_STATES } from '../../../core/plan/plan.ts';
import { copyOfPiece } from '../../../core/planner/newPlan.ts';
import { length, shedWord } from '../../format.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { Field } from '../../parts/field.tsx';
import { LengthField } from '../../parts/lengthField.tsx';
import { ProblemsAt } from '../../parts/problemsAt.tsx';
import { editPlan } from '../../planning.ts';
import { EdgeFields } from './edgeFields.tsx';
import { goodSheet } from './figures.ts';
import { missWords } from './missWords.ts';
import { type PartProps, problemsUnder } from './part.ts';
import { PieceWeft } from './pieceWeft.tsx';
import { WrongBadge } from './wrongBadge.tsx';

export function PiecesPart({ plan }: PartProps) {
  const [chosen, setChosen] = useState(0);
  const index = Math.min(chosen, plan.pieces.length - 1);
  const piece = plan.pieces[index];
  return (
    <div class="part-fields">
      <ProblemsAt path="pieces" />
      <PieceTabs plan={plan} chosen={index} onChoose={setChosen} />
      {piece === undefined ? null : (
        <PieceFields key={index} plan={plan} piece={piece} index={index} />
      )}
    </div>
  );
}

const setPieces = (pieces: readonly Piece[], about: string | null = null) =>
  editPlan((it) => ({ ...it, pieces }), about);

export function setPiece(plan: Plan, index: number, piece: Piece, about: string | null = null) {
  setPieces(replaced(plan.pieces, index, piece), about);
}

interface PieceTabsProps extends PartProps {
  readonly chosen: number;
  readonly onChoose: (index: number) => void;
}

function PieceTabs({ plan, chosen, onChoose }: PieceTabsProps) {
  const { pieces } = plan;
  const go = (next: readonly Piece[], to: number) => {
    setPieces(next);
    onChoose(to);
  };
  return (
    <div class="pieces">
      <div class="row">
        {pieces.map((piece, i) => (
          <button
            type="button"
            key={`${i} ${piece.name}`}
            class="button"
            aria-pressed={i === chosen}
            onClick={() => onChoose(i)}
          >
            {i + 1}. {piece.name}
            <WrongBadge wrong={problemsUnder([`pieces[${i}]`])} />
          </button>
        ))}
      </div>
      <div class="piece-tools">
        <button
          type="button"
          class="button strong"
          onClick={() => go(copyOfPiece(plan, chosen).pieces, chosen + 1)}
        >
          {t('One more like it')}
        </button>
        <button
          type="button"
          class="button"
          disabled={chosen === 0}
          onClick={() => go(moved(pieces, chosen, -1), chosen - 1)}
        >
          {t('Weave it earlier')}
        </button>
        <button
          type="button"
          class="button"
          disabled={chosen === pieces.length - 1}
          onClick={() => go(moved(pieces, chosen, 1), chosen + 1)}
        >
          {t('Weave it later')}
        </button>
        <button
          type="button"
          class="button"
          disabled={pieces.length === 1}
          onClick={() => go(removed(pieces, chosen), Math.max(0, chosen - 1))}
        >
          {t('Remove it')}
        </button>
      </div>
    </div>
  );
}

interface PieceProps extends PartProps {
  readonly piece: Piece;
  readonly index: number;
}

function PieceFields({ plan, piece, index }: PieceProps) {
  const path = `pieces[${index}]`;
  const set = (next: Piece, about: string | null = null) =>
    setPiece(plan, index, next, about === null ? null : `${path}.${about}`);
  return (
    <>
      <Field label={t('Name')} path={`${path}.name`}>
        <input
          type="text"
          value={piece.name}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => set({ ...piece, name: event.currentTarget.value }, 'name')}
        />
      </Field>
      <WishFields plan={plan} piece={piece} index={index} />
      <PieceWeft plan={plan} piece={piece} index={index} />
      <EdgeFields
        label={t('It begins with')}
        edge={piece.beginning}
        plan={plan}
        path={`${path}.beginning`}
        onEdge={(beginning, about) => set({ ...piece, beginning }, about)}
      />
      <EdgeFields
        label={t('It ends with')}
        edge={piece.ending}
        plan={plan}
        path={`${path}.ending`}
        onEdge={(ending, about) => set({ ...piece, ending }, about)}
      />
      <Choice
        label={t('Shed of the first pick')}
        chosen={piece.startShed}
        onChoose={(startShed) => set({ ...piece, startShed })}
        options={SHED_WORDS[plan.loom.kind].map((value, i) => ({
          value,
          words: shedWord(plan.loom.kind, i === 0 ? 0 : 1),
        }))}
      />
      <ProblemsAt path={`${path}.startShed`} />
      <ProblemsAt path={`${path}.startSide`} />
    </>
  );
}

/** What the weft as it is planned comes to, beside the wish. */
function comesTo({ units }: Plan, index: number): string {
  const sheet = goodSheet.value?.pieces[index];
  if (sheet === undefined) return '';
  if (sheet.wish === null)
    return t('As planned it comes to {length}.', { length: length(sheet.finishedLength, units) });
  const { reached, miss } = sheet.wish;
  return t('As planned it comes to {length}, {miss}.', {
    length: length(reached, units),
    miss: missWords(miss, units),
  });
}

const STATE_WORDS = {
  loom: t('on the loom'),
  off: t('off the loom'),
  washed: t('washed'),
  finished: t('finished'),
} as const;

function WishFields({ plan, piece, index }: PieceProps) {
  const wish = piece.wish ?? { state: 'finished', length: 0 };
  const set = (next: typeof wish, about: string) => {
    const { wish: _old, ...rest } = piece;
    setPiece(plan, index, next.length > 0 ? { ...rest, wish: next } : rest, about);
  };
  return (
    <div class="wish">
      <LengthField
        label={t('Length wished, without fringe')}
        mm={wish.length}
        units={plan.units}
        path={`pieces[${index}].wish.length`}
        onLength={(length) => set({ ...wish, length }, `wish.${index}`)}
        hint={comesTo(plan, index)}
      />
      <Choice
        label={t('Measured')}
        chosen={wish.state}
        onChoose={(state) => set({ ...wish, state }, `wish-state.${index}`)}
        options={WISH_STATES.map((value) => ({ value, words: STATE_WORDS[value] }))}
      />
    </div>
  );
}
