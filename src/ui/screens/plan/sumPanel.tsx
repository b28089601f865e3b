/** What the plan comes to, always in sight. While a field is wrong the last good figures stay, paled. */
import { useState } from 'preact/hooks';
import type { Plan } from '../../../core/plan/plan.ts';
import type { PlanSheet } from '../../../core/planner/sheet.ts';
import { checkedDraft, draft, goodPlan, isStale } from '../../draft.ts';
import { length } from '../../format.ts';
import { ClothGlance } from '../../parts/clothGlance.tsx';
import { lazily } from '../../parts/lazily.tsx';
import { printPlan } from '../../printing.ts';
import '../../style/sum.css';
import { t } from '../../language/t.ts';
import { goodSheet } from './figures.ts';
import type { PartProps } from './part.ts';
import { PictureSheet } from './pictureSheet.tsx';
import { Alarms } from './sumAlarms.tsx';
import { CheckPart } from './sumChecks.tsx';
import { NeedsPart } from './sumNeeds.tsx';
import { PiecesSum } from './sumPieces.tsx';

const TakeAlongSheet = lazily(
  async () => (await import('../../parts/share/takeAlongSheet.tsx')).TakeAlongSheet,
);

export function SumPanel({ plan }: PartProps) {
  const [open, setOpen] = useState(false);
  const [picture, setPicture] = useState(false);
  const good = goodPlan.value;
  const sheet = goodSheet.value;
  if (good === null || sheet === null) return <NoSum plan={plan} />;
  return (
    <aside
      class="sum"
      data-stale={isStale.value}
      data-open={open}
      aria-label={t('What the plan comes to')}
    >
      <button type="button" class="sum-picture" onClick={() => setPicture(true)}>
        <ClothGlance plan={good} piece={0} />
        <span class="unseen">{t('Show the whole picture')}</span>
      </button>
      <h2 class="unseen">{t('What the plan comes to')}</h2>
      <KeyFigures plan={good} sheet={sheet} />
      {isStale.value ? (
        <p class="stale">{t('As it was before the field that is to mend.')}</p>
      ) : null}
      <Alarms plan={good} sheet={sheet} />
      <button
        type="button"
        class="button sum-toggle"
        aria-expanded={open}
        onClick={() => setOpen(!open)}
      >
        <span class="wide-word">{open ? t('Less') : t('All figures')}</span>{' '}
        <span aria-hidden="true">{open ? '▴' : '▾'}</span>
      </button>
      <div class="sum-more">
        <NeedsPart plan={good} sheet={sheet} />
        <PiecesSum plan={good} sheet={sheet} />
        <CheckPart plan={good} sheet={sheet} />
        <TakeAlong />
      </div>
      {picture ? <PictureSheet plan={good} onClose={() => setPicture(false)} /> : null}
    </aside>
  );
}

function TakeAlong() {
  const [taking, setTaking] = useState(false);
  const checked = checkedDraft.value;
  const plan = checked?.ok === true ? checked.value : null;
  return (
    <>
      <button type="button" class="button" onClick={() => setTaking(true)}>
        {t('Share or print')}
      </button>
      {taking ? (
        <TakeAlongSheet
          plan={plan}
          onPrint={() => plan !== null && printPlan(plan)}
          onClose={() => setTaking(false)}
        />
      ) : null}
    </>
  );
}

/** Before the plan can be computed the first time. */
function NoSum({ plan }: PartProps) {
  const wrong = draft.value === null ? 0 : plan.pieces.length;
  return (
    <aside class="sum" aria-label={t('What the plan comes to')}>
      <p class="hint" data-pieces={wrong}>
        {t('The figures appear as soon as loom, yarns, warp and one piece make a plan.')}
      </p>
    </aside>
  );
}

function KeyFigures({ plan, sheet }: { readonly plan: Plan; readonly sheet: PlanSheet }) {
  const { units } = plan;
  const long = (mm: number) => length(mm, units, 'long');
  const { warp, widths, warpLength, dents } = sheet;
  return (
    <dl class="key-figures">
      <Figure name={t('Ends')} value={`${warp.ends}${warp.floatingEnds > 0 ? ' + 2' : ''}`} />
      <Figure
        name={t('In the reed')}
        value={length(widths.reed, units)}
        {...(dents.fits
          ? {}
          : { wrong: t('too wide by {length}', { length: length(-dents.room, units) }) })}
      />
      <Figure name={t('Washed width')} value={length(widths.washed, units)} />
      <Figure name={t('Warp to wind')} value={long(warpLength.wound)} />
    </dl>
  );
}

interface FigureProps {
  readonly name: string;
  readonly value: string;
  readonly wrong?: string;
}

export function Figure({ name, value, wrong }: FigureProps) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        {value}
        {wrong === undefined ? null : <span class="wrong"> {wrong}</span>}
      </dd>
    </div>
  );
}
