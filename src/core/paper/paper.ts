/** Sheets of paper, and the part of one that every printer reaches. Millimetres, y downwards. */
import type { Mm } from '../measure/length.ts';

export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];

export interface Size {
  readonly width: Mm;
  readonly height: Mm;
}

/** ISO 216 A4, and ANSI Letter of 8½ × 11 in. */
export const PAPER_SIZES: Readonly<Record<Paper, Size>> = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
};

/** Left free all round: more than any usual printer needs, and room for what browsers print there. */
export const PAPER_MARGIN: Mm = 12;

/** A hair less than the paper has: a page as high as its paper can push an empty one after it. */
const SLACK: Mm = 0.5;

/** What can be printed on. The origin of everything laid out on paper is its upper left corner. */
export function printable(paper: Paper): Size {
  const { width, height } = PAPER_SIZES[paper];
  return { width: width - 2 * PAPER_MARGIN, height: height - 2 * PAPER_MARGIN - SLACK };
}

/** Drawn on every tape: what they measure on paper tells whether the printer kept the size. */
export const CHECK_BAR_MM: Mm = 100;
export const CHECK_BAR_INCHES = 4;
