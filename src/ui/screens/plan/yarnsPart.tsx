/** The yarns of this plan: a letter each, from the shelf or as typed. */

import { useState } from 'preact/hooks';
import { removed, replaced } from '../../../core/plan/listEdits.ts';
import type { Letter, Plan, Yarn } from '../../../core/plan/plan.ts';
import { asPlanYarn, type ShelfYarn } from '../../../core/plan/shelf.ts';
import { freeLetter } from '../../../core/planner/nextYarn.ts';
import { freshYarn } from '../../givenNames.ts';
import { t } from '../../language/t.ts';
import { MassField } from '../../parts/massField.tsx';
import { ProblemsAt } from '../../parts/problemsAt.tsx';
import { Swatch } from '../../parts/swatch.tsx';
import { type YarnDraft, YarnForm } from '../../parts/yarnForm.tsx';
import { countWords } from '../../parts/yarnWords.ts';
import { editPlan } from '../../planning.ts';
import { gramsLeft, yarnShelf } from '../../shelf.ts';
import { AlikeNote } from './alikeNote.tsx';
import type { PartProps } from './part.ts';

export function YarnsPart({ plan }: PartProps) {
  const [open, setOpen] = useState<number | null>(null);
  return (
    <div class="part-fields">
      <ProblemsAt path="yarns" />
      <ul class="plan-yarns">
        {plan.yarns.map((yarn, i) => (
          <li key={yarn.letter} class="plan-yarn" data-open={open === i}>
            <YarnRow yarn={yarn} open={open === i} onOpen={() => setOpen(open === i ? null : i)} />
            {open === i ? (
              <YarnFields plan={plan} index={i} onGone={() => setOpen(null)} />
            ) : (
              <ProblemsAt path={`yarns[${i}]`} inside />
            )}
          </li>
        ))}
      </ul>
      <AlikeNote plan={plan} />
      <AddYarn plan={plan} onAdded={setOpen} />
    </div>
  );
}

interface YarnRowProps {
  readonly yarn: Yarn;
  readonly open: boolean;
  readonly onOpen: () => void;
}

function YarnRow({ yarn, open, onOpen }: YarnRowProps) {
  return (
    <button type="button" class="button yarn-row" aria-expanded={open} onClick={onOpen}>
      <Swatch yarn={yarn} />
      <span>
        <strong>{yarn.name}</strong> {countWords(yarn.count)}
      </span>
      <span aria-hidden="true">{open ? '▴' : '▾'}</span>
    </button>
  );
}

const setYarns = (yarns: readonly Yarn[], about: string | null = null) =>
  editPlan((it) => ({ ...it, yarns }), about);

interface YarnFieldsProps extends PartProps {
  readonly index: number;
  readonly onGone: () => void;
}

function YarnFields({ plan, index, onGone }: YarnFieldsProps) {
  const yarn = plan.yarns[index];
  if (yarn === undefined) return null;
  const set = (change: Partial<Yarn>) =>
    setYarns(
      replaced(plan.yarns, index, { ...yarn, ...change }),
      `yarn.${index}.${Object.keys(change).join()}`,
    );
  return (
    <div class="part-fields">
      <FromShelf
        plan={plan}
        onTake={(it) => setYarns(replaced(plan.yarns, index, ofShelf(it, yarn.letter)))}
      />
      <YarnForm
        key={`${yarn.letter} ${yarn.shelf ?? ''}`}
        draft={yarn}
        path={`yarns[${index}]`}
        onChange={(change: Partial<YarnDraft>) => set(change)}
      >
        <OnHand plan={plan} yarn={yarn} index={index} />
      </YarnForm>
      <button
        type="button"
        class="button"
        disabled={plan.yarns.length === 1}
        onClick={() => {
          setYarns(removed(plan.yarns, index));
          onGone();
        }}
      >
        {t('Take {yarn} out of the plan', { yarn: yarn.name })}
      </button>
    </div>
  );
}

interface OnHandProps extends PartProps {
  readonly yarn: Yarn;
  readonly index: number;
}

function OnHand({ plan, yarn, index }: OnHandProps) {
  const set = (grams: number | null) => {
    const { onHand: _old, ...rest } = yarn;
    const next = grams === null ? rest : { ...rest, onHand: grams };
    setYarns(replaced(plan.yarns, index, next), `yarn.${index}.on-hand`);
  };
  return (
    <MassField
      label={t('On hand')}
      grams={yarn.onHand ?? null}
      units={plan.units}
      onGrams={set}
      path={`yarns[${index}].onHand`}
    />
  );
}

interface AddYarnProps extends PartProps {
  readonly onAdded: (index: number) => void;
}

function AddYarn({ plan, onAdded }: AddYarnProps) {
  const letter = freeLetter(plan.yarns);
  if (letter === null) return null;
  const add = (yarn: Yarn) => {
    setYarns([...plan.yarns, yarn]);
    onAdded(plan.yarns.length);
  };
  return (
    <div class="row">
      <button
        type="button"
        class="button strong"
        onClick={() => add(freshYarn(plan.yarns, letter))}
      >
        {t('Add a yarn')}
      </button>
      <ShelfYarns plan={plan} onTake={(it) => add(ofShelf(it, letter))} />
    </div>
  );
}

const ofShelf = (it: ShelfYarn, letter: Letter) => asPlanYarn(it, letter, gramsLeft(it));

interface ShelfYarnsProps extends PartProps {
  readonly onTake: (yarn: ShelfYarn) => void;
}

/** A yarn of the shelf in the place of this one: the letter stays, and every stripe that names it. */
function FromShelf({ plan, onTake }: ShelfYarnsProps) {
  if (offeredTo(plan).length === 0) return null;
  return (
    <fieldset class="choice">
      <legend>{t('Another from the shelf instead')}</legend>
      <ShelfYarns plan={plan} onTake={onTake} />
    </fieldset>
  );
}

function offeredTo(plan: Plan): readonly ShelfYarn[] {
  const taken = new Set(plan.yarns.map((yarn) => yarn.shelf));
  return yarnShelf.value.filter((it) => !taken.has(it.id));
}

function ShelfYarns({ plan, onTake }: ShelfYarnsProps) {
  return (
    <>
      {offeredTo(plan).map((it) => (
        <button type="button" key={it.id} class="button shelf-yarn" onClick={() => onTake(it)}>
          <span class="shelf-dot" style={{ backgroundColor: it.colour }} aria-hidden="true" />
          {it.name}
        </button>
      ))}
    </>
  );
}
