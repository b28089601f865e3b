/** One page: on the screen a sheet of paper in little, printed at its true size. */

import type { ComponentChildren } from 'preact';
import { PAPER_MARGIN, PAPER_SIZES, type Paper } from '../../../core/paper/paper.ts';
import { t } from '../../language/t.ts';

export interface PageProps {
  readonly paper: Paper;
  readonly title: string;
  readonly about: string;
  /** Counted from 0. */
  readonly page: number;
  readonly of: number;
  readonly children: ComponentChildren;
}

export function Page({ paper, title, about, page, of, children }: PageProps) {
  const { width, height } = PAPER_SIZES[paper];
  const size = { '--paper-width': width, '--paper-height': height, '--margin': PAPER_MARGIN };
  return (
    <section
      class={`page page-${paper}`}
      style={size as unknown as string}
      aria-label={t('{title}, page {page} of {of}', { title, page: page + 1, of })}
    >
      <div class="page-in">
        <header class="page-head">
          <h2>{title}</h2>
          <p>{about}</p>
          <p class="page-number">
            {page + 1} / {of}
          </p>
        </header>
        {children}
      </div>
    </section>
  );
}
