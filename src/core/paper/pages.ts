/** Rows onto pages: how many lines a text takes, and where a page ends. */
import type { Mm } from '../measure/length.ts';

/**
 * Mean width of a letter as a share of the size of type, in the widest of the usual system types:
 * what a page holds must not depend on which one a device has.
 */
const LETTER_WIDTHS = { plain: 0.6, bold: 0.68 } as const;
export type Weight = keyof typeof LETTER_WIDTHS;

/** Lines that a text takes in a column; rather one too many than one too few. */
export function linesFor(text: string, width: Mm, size: Mm, weight: Weight = 'plain'): number {
  const most = Math.max(1, Math.floor(width / (size * LETTER_WIDTHS[weight])));
  let lines = 1;
  let used = 0;
  for (const word of text.split(/\s+/).filter((it) => it !== '')) {
    const needed = used === 0 ? word.length : used + 1 + word.length;
    if (needed <= most) {
      used = needed;
      continue;
    }
    // A word longer than the column is broken.
    lines += (used === 0 ? 0 : 1) + Math.floor((word.length - 1) / most);
    used = ((word.length - 1) % most) + 1;
  }
  return lines;
}

export interface RowHeight {
  readonly height: Mm;
  /** A heading: it never stands last on a page. */
  readonly headsNext?: true;
}

export interface PageRange {
  readonly from: number;
  readonly to: number;
}

/** Which rows come on which page, half-open; a row higher than a page has one for itself. */
export function pagesOf(rows: readonly RowHeight[], room: Mm): readonly PageRange[] {
  const pages: PageRange[] = [];
  for (let from = 0; from < rows.length; ) {
    const full = endOfPage(rows, from, room);
    const to = full === rows.length ? full : withoutHeadings(rows, from, full);
    pages.push({ from, to });
    from = to;
  }
  return pages;
}

function endOfPage(rows: readonly RowHeight[], from: number, room: Mm): number {
  let used = 0;
  for (let at = from; at < rows.length; at++) {
    used += rows[at]?.height ?? 0;
    if (used > room) return Math.max(from + 1, at);
  }
  return rows.length;
}

/** Headings that would stand last go over to the next page, unless there is nothing before them. */
function withoutHeadings(rows: readonly RowHeight[], from: number, full: number): number {
  let to = full;
  while (to > from && rows[to - 1]?.headsNext === true) to--;
  return to === from ? full : to;
}
