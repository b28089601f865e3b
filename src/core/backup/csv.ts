/** Tables as RFC 4180 has them, for any spreadsheet; none of their cells can become a formula. */

export type Cell = string | number;

/**
 * What a spreadsheet takes for the beginning of a formula, also behind white space and what cannot be seen, and the wide
 * forms of the same signs that some turn into them (OWASP, CSV injection).
 */
const FORMULA = /^[\s\p{Cc}\p{Cf}]*[=+\-@\uff1d\uff0b\uff0d\uff20]/u;
/** A tab or line break in front can end the cell before. */
const BREAK = /^[\t\r\n]/;

/**
 * The text of a table: CRLF after every line, quotes where they are needed, and the mark of UTF-8 in
 * front, without which some spreadsheets read names wrongly. Numbers are counts: below nought they
 * would look like formulas, so they throw.
 *
 * @example csvText([['Name', 'Picks'], ['=1+1', 3]]) // '\ufeffName,Picks\r\n\'=1+1,3\r\n'
 */
export function csvText(rows: readonly (readonly Cell[])[]): string {
  return `\ufeff${rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('')}`;
}

function cellText(cell: Cell): string {
  if (typeof cell === 'string') return quoted(harmless(cell));
  if (!(cell >= 0)) throw new Error(`csvText: wanted a count, got ${cell}`);
  return String(cell);
}

/** An apostrophe in front makes text of it; spreadsheets show the rest. */
function harmless(text: string): string {
  return FORMULA.test(text) || BREAK.test(text) ? `'${text}` : text;
}

function quoted(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
