/** The loom card: what to weave, line by line, with a box to tick for each. */

import { type CardGroup, type CardLine, loomCard } from '../../../core/paper/loomCard.ts';
import { type Paper, printable } from '../../../core/paper/paper.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { t } from '../../language/t.ts';
import type { PaperJob } from '../../state.ts';
import { CardPages, type CardRow } from './cardPages.tsx';
import { headingHeight, rowHeight, type TextSize } from './rows.ts';
import { groupWords, lineWords } from './words.ts';

export interface CardPagesProps {
  readonly job: PaperJob;
  readonly paper: Paper;
}

export function LoomCardPages({ job, paper }: CardPagesProps) {
  const { plan } = job.course;
  const rows = loomCard(job.course, job.dues).flatMap((group) => rowsOf(plan, group, paper));
  return <CardPages title={t('Loom card')} about={plan.name} rows={rows} paper={paper} />;
}

/** Millimetres, as in the style sheet. */
const BOX = 7;
const COLUMNS = 14 + 28 + 22;
const GAPS = 4 * 3;

function rowsOf(plan: Plan, group: CardGroup, paper: Paper): readonly CardRow[] {
  const boxes = group.pieces.length * BOX;
  const wide = printable(paper).width - boxes - 3;
  const width = wide - COLUMNS - GAPS;
  const key = (n: number) => `${group.pieces[0]} ${n}`;
  const { title, more } = groupWords(plan, group);
  const heading: readonly TextSize[] = [
    { text: title, width: printable(paper).width, weight: 'bold' },
    { text: more, width, size: 'small' },
  ];
  return [
    { ...headingHeight(heading), key: key(-1), shown: <Heading group={group} plan={plan} /> },
    ...group.lines.map((line, n) => {
      const words = lineWords(plan, line);
      const main: TextSize = { text: words.main, width, weight: 'bold' };
      const below: TextSize = { text: words.more, width: wide, size: 'small' };
      const shown = <Line plan={plan} line={line} />;
      return { ...rowHeight([main], [below]), key: key(n), shown };
    }),
  ];
}

function Heading({ plan, group }: { readonly plan: Plan; readonly group: CardGroup }) {
  const { title, more } = groupWords(plan, group);
  return (
    <div class="card-heading">
      <h3>{title}</h3>
      <p class="card-small card-caption">
        <span>{more}</span>
        <span class="card-picks">{t('picks')}</span>
        <span class="card-first">{t('first pick')}</span>
        <span class="card-at">{t('then at')}</span>
      </p>
    </div>
  );
}

function Line({ plan, line }: { readonly plan: Plan; readonly line: CardLine }) {
  const { main, more, picks, first, at } = lineWords(plan, line);
  return (
    <div class={line.kind === 'block' ? 'card-row' : 'card-row card-due'}>
      <Boxes boxes={line.boxes} />
      <p class="card-what">{main}</p>
      {first === '' ? (
        <p class="card-when">{picks}</p>
      ) : (
        <>
          <p class="card-picks">{picks}</p>
          <p class="card-first">{first}</p>
        </>
      )}
      <p class="card-at">{at}</p>
      {more === '' ? null : <p class="card-more">{more}</p>}
    </div>
  );
}

export function Boxes({ boxes }: { readonly boxes: readonly boolean[] }) {
  return (
    <span class="card-boxes" aria-hidden="true">
      {boxes.map((has, i) => (
        <span key={i} class={has ? 'card-box' : 'card-box card-no-box'} />
      ))}
    </span>
  );
}
