/** The warping card: the list to warp from, step by step, with a box to tick for each. */

import { useMemo } from 'preact/hooks';
import { type Paper, printable } from '../../../core/paper/paper.ts';
import type { WarpingStep } from '../../../core/plan/warping/list.ts';
import { usualWay, warpingList } from '../../../core/plan/warping.ts';
import { sheetOf } from '../../../core/planner/sheet.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import type { PaperJob } from '../../state.ts';
import { nameIn, type Work } from '../warping/stepWords.ts';
import { PHASES, stepWords } from '../warping/words.ts';
import { CardPages, type CardRow } from './cardPages.tsx';
import { Boxes, type CardPagesProps } from './loomCardPages.tsx';
import { headingHeight, rowHeight, type TextSize } from './rows.ts';

export function WarpingCardPages({ job, paper }: CardPagesProps) {
  const work = useMemo(() => workOf(job), [job]);
  const rows = rowsOf(work, paper);
  return <CardPages title={t('Warping card')} about={work.plan.name} rows={rows} paper={paper} />;
}

function workOf({ course: { plan }, way }: PaperJob): Work {
  const { method, viewpoint, seenFrom } = way ?? usualWay(plan);
  const warpLength = sheetOf(plan).warpLength.wound;
  return { plan, list: warpingList(plan, { method, viewpoint, warpLength }), seenFrom };
}

/** Millimetres, as in the style sheet. */
const GAP = 3;
const BEFORE = 7 + 28 + 2 * GAP;
const PLACE = 42;

function rowsOf(work: Work, paper: Paper): readonly CardRow[] {
  const width = printable(paper).width;
  const takes = takesOf(work);
  return [
    {
      ...rowHeight(
        [],
        takes.map((text) => ({ text, width })),
      ),
      key: 'takes',
      shown: <Takes lines={takes} />,
    },
    ...work.list.steps.flatMap((step, i) => {
      const heads = step.phase !== work.list.steps[i - 1]?.phase;
      return [...(heads ? [phaseRow(step, width)] : []), stepRow(work, step, width)];
    }),
  ];
}

function takesOf({ plan, list, seenFrom }: Work): readonly string[] {
  const { units } = plan;
  return [
    t(
      '{n, plural, one {# end} other {# ends}} of {far}, told {way, select, same {left to right} other {right to left}} as seen from the {from, select, front {front} other {back}}.',
      {
        n: list.ends,
        far: length(list.pegDistance, units, 'long'),
        way: seenFrom === list.viewpoint ? 'same' : 'other',
        from: seenFrom,
      },
    ),
    ...list.yarns.map(({ yarn, ends, loops }) => {
      const name = `${yarn} ${nameIn(plan, yarn)}`;
      return list.method === 'direct'
        ? t(
            '{name}: {loops, plural, one {# loop} other {# loops}}, {ends, plural, one {# end} other {# ends}}',
            { name, loops, ends },
          )
        : t('{name}: {ends, plural, one {# end} other {# ends}}', { name, ends });
    }),
  ];
}

function Takes({ lines }: { readonly lines: readonly string[] }) {
  return (
    <div class="card-takes">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}

function phaseRow({ phase, id }: WarpingStep, width: number): CardRow {
  return {
    ...headingHeight([{ text: PHASES[phase], width, weight: 'bold' }]),
    key: `phase ${id}` /* not for a reader */,
    shown: (
      <div class="card-heading">
        <h3>{PHASES[phase]}</h3>
      </div>
    ),
  };
}

function stepRow(work: Work, step: WarpingStep, width: number): CardRow {
  const { runs, title, amount, place, hands } = stepWords(work, step);
  const letters = [...new Set(runs.map((run) => run.of))].join(' ');
  const main = letters === '' ? title : `${letters} ${title}`;
  const more = hands.join(' ');
  const columns: readonly TextSize[] = [
    { text: main, width: width - BEFORE - PLACE - 2 * GAP, weight: 'bold' },
    { text: place, width: PLACE },
  ];
  const below: TextSize = { text: more, width: width - BEFORE, size: 'small' };
  return {
    ...rowHeight(columns, [below]),
    key: step.id,
    shown: (
      <div class="card-row card-step">
        <Boxes boxes={[true]} />
        <p class="card-amount">{amount === null ? '' : `${amount.count} ${amount.unit}`}</p>
        <p class="card-what">{main}</p>
        <p class="card-place">{place}</p>
        {more === '' ? null : <p class="card-more">{more}</p>}
      </div>
    ),
  };
}
