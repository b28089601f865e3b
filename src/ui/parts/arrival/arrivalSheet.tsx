/** A plan that came by a link or a code: what it is, and the choice whether to take it in. */

import { useMemo } from 'preact/hooks';
import type { Plan } from '../../../core/plan/plan.ts';
import { sheetOf } from '../../../core/planner/sheet.ts';
import { keepDraft, keepWarp, sendAway } from '../../arriving.ts';
import { isInstalled, isTouched } from '../../device/browserTab.ts';
import { length, list } from '../../format.ts';
import { t, tParts } from '../../language/t.ts';
import { type Arrival, warpCards } from '../../state.ts';
import '../../style/travel.css';
import { wordsFor } from '../../problemWords.ts';
import type { ArrivalProblem } from '../../travelling.ts';
import { ClothGlance } from '../clothGlance.tsx';
import { ProblemList } from '../problemList.tsx';
import { Sheet } from '../sheet.tsx';
import { Swatch } from '../swatch.tsx';
import { arrivalWords } from './words.ts';

export function ArrivalSheet({ arrival }: { readonly arrival: Arrival }) {
  return arrival.kind === 'plan' ? (
    <Sheet title={t('A plan has come')} onClose={sendAway} wide>
      <Offered plan={arrival.plan} />
    </Sheet>
  ) : (
    <Sheet title={t('This plan did not come whole')} onClose={sendAway}>
      <Refused problem={arrival.problem} />
    </Sheet>
  );
}

function Refused({ problem }: { readonly problem: ArrivalProblem }) {
  const { wrong, right } = arrivalWords(problem);
  return (
    <div class="form">
      <p>
        <strong>{wrong}</strong> {right}
      </p>
      {problem.code === 'not-a-plan' ? (
        <ProblemList problems={problem.problems} words={wordsFor} />
      ) : null}
      <p class="hint">{t('Nothing was stored, and what you have is as it was.')}</p>
    </div>
  );
}

function Offered({ plan }: { readonly plan: Plan }) {
  return (
    <div class="arrival">
      <div class="arrival-picture">
        <ClothGlance plan={plan} piece={0} />
      </div>
      <div class="arrival-words">
        <h3>{plan.name}</h3>
        <PlanFigures plan={plan} />
        <ul class="arrival-yarns">
          {plan.yarns.map((yarn) => (
            <li key={yarn.letter}>
              <Swatch yarn={yarn} />
              {yarn.name}
            </li>
          ))}
        </ul>
      </div>
      <div class="arrival-choice">
        <button type="button" class="button strong" onClick={() => void keepWarp(plan)}>
          {t('Keep it')}
        </button>
        <button type="button" class="button" onClick={() => void keepDraft(plan)}>
          {t('Change it first')}
        </button>
        <button type="button" class="button quiet" onClick={sendAway}>
          {t('Not now')}
        </button>
      </div>
      <TwinHint name={plan.name} />
      <TabHint />
    </div>
  );
}

function PlanFigures({ plan }: { readonly plan: Plan }) {
  const { widths, pieces, warpLength } = useMemo(() => sheetOf(plan), [plan]);
  const { units } = plan;
  const lengths = new Set(pieces.map((piece) => length(piece.finishedLength, units)));
  return (
    <dl class="figures">
      <dt>{t('Pieces')}</dt>
      <dd>{t('{n}, {lengths} finished', { n: pieces.length, lengths: list([...lengths]) })}</dd>
      <dt>{t('Width')}</dt>
      <dd>
        {t('{washed} washed, {reed} in the reed', {
          washed: length(widths.washed, units),
          reed: length(widths.reed, units),
        })}
      </dd>
      <dt>{t('Warp')}</dt>
      <dd>{t('{far} to wind', { far: length(warpLength.wound, units, 'long') })}</dd>
    </dl>
  );
}

/** A plan handed out anew, changed or not, must not be taken for the one on the loom. */
function TwinHint({ name }: { readonly name: string }) {
  if (warpCards.value?.some((card) => card.warp.name === name) !== true) return null;
  return (
    <p class="hint arrival-hint">
      {t(
        'There is a warp of this name here. It stays as it is, with all that was woven; this plan becomes another beside it.',
      )}
    </p>
  );
}

/** On iPads and iPhones a tab and the app on the home screen keep their things apart. */
function TabHint() {
  if (isInstalled() || !isTouched()) return null;
  return (
    <p class="hint arrival-hint">
      {tParts(
        'This is a tab of the browser. On an iPad or iPhone, Fellmark on the home screen keeps plans of its own and will not see what you keep here: open it there, tap {scan}, and point it at the code or paste the link. A plan file works too.',
        { scan: <strong>{t('Scan a plan')}</strong> },
      )}
    </p>
  );
}
