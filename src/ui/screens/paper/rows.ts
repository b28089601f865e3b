/** Rows of a card and their heights: the sizes of type are those of the style sheet. */
import type { Mm } from '../../../core/measure/length.ts';
import { linesFor, type RowHeight } from '../../../core/paper/pages.ts';
import { type Paper, printable } from '../../../core/paper/paper.ts';

/** Millimetres. Read at arm's length: at 60 cm a capital of 3.5 mm is 20 minutes of arc. */
export const TYPE: Mm = 4.9;
const SMALL_TYPE: Mm = 4.1;
const LINE = 1.25;
/** Above and below the words of a row, and its rule. */
const ROW_ROOM: Mm = 2.6;
const HEADING_ROOM: Mm = 5.5;
/** The head of every page. */
const PAGE_HEAD: Mm = 13;

export interface TextSize {
  readonly text: string;
  readonly width: Mm;
  readonly size?: 'small';
  readonly weight?: 'bold';
}

/** Height of a row: the highest of the columns, and the texts that run under all of them. */
export function rowHeight(columns: readonly TextSize[], below: readonly TextSize[]): RowHeight {
  return { height: Math.max(0, ...columns.map(textHeight)) + sum(below) + ROW_ROOM };
}

export function headingHeight(texts: readonly TextSize[]): RowHeight {
  return { height: sum(texts) + HEADING_ROOM, headsNext: true };
}

const sum = (texts: readonly TextSize[]) => texts.reduce((all, it) => all + textHeight(it), 0);

function textHeight({ text, width, size, weight }: TextSize): Mm {
  const type = size === 'small' ? SMALL_TYPE : TYPE;
  return text === '' ? 0 : linesFor(text, width, type, weight ?? 'plain') * type * LINE;
}

/** What a page has for rows under its head. */
export function roomForRows(paper: Paper): Mm {
  return printable(paper).height - PAGE_HEAD;
}
