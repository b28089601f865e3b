/** The rows of a card on as many pages as they need. */
import type { ComponentChildren } from 'preact';
import { pagesOf, type RowHeight } from '../../../core/paper/pages.ts';
import type { Paper } from '../../../core/paper/paper.ts';
import { Page } from './page.tsx';
import { roomForRows } from './rows.ts';

export interface CardRow extends RowHeight {
  readonly key: string;
  readonly shown: ComponentChildren;
}

interface Props {
  readonly title: string;
  /** The plan the card is about. */
  readonly about: string;
  readonly rows: readonly CardRow[];
  readonly paper: Paper;
}

export function CardPages({ title, about, rows, paper }: Props) {
  const pages = pagesOf(rows, roomForRows(paper));
  return (
    <>
      {pages.map(({ from, to }, page) => (
        <Page key={from} paper={paper} title={title} about={about} page={page} of={pages.length}>
          <div class="card-rows">
            {rows.slice(from, to).map(({ key, shown }) => (
              <div key={key}>{shown}</div>
            ))}
          </div>
        </Page>
      ))}
    </>
  );
}
