/**
 * The rows as a table in Markdown. No time stands in it: a time belongs to one machine, a ratio of two
 * taken side by side can be checked on any.
 */
import { type Failure, holds, type Limit, type Row, ratiosOf, type Unit, valueFor } from './row.ts';

export interface Results {
  readonly rows: readonly Row[];
  readonly failures: readonly Failure[];
}

const HEAD = ['what', 'against', 'median', 'p95', 'at most', ''] as const;
const RULE = ['---', '---', '---:', '---:', '---:', '---'] as const;

/** @example tableOf({ rows, failures: [] }) // '| what | against | median | …' */
export function tableOf({ rows, failures }: Results): string {
  return [HEAD, RULE, ...rows.map(cellsOf), ...failures.map(failureCells)]
    .map((cells) => `| ${cells.join(' | ')} |`)
    .join('\n');
}

function cellsOf(row: Row): readonly string[] {
  const ratios = ratiosOf(row) ?? sharesOf(row);
  return [
    row.what,
    row.floor?.what ?? 'its budget',
    ratios === null ? '' : times(ratios.median),
    ratios === null ? '' : times(ratios.p95),
    row.limits.map((limit) => limitText(row, limit)).join(', '),
    row.limits.length === 0 ? '' : holds(row) ? 'holds' : '**misses**',
  ];
}

function failureCells({ what, why }: Failure): readonly string[] {
  // A line or a bar of its own would break the table.
  const words = why.replace(/\s+/g, ' ').replaceAll('|', '/').slice(0, 200);
  return [what, words, '', '', '', '**not measured**'];
}

/** Without a floor: of the budget. */
function sharesOf({ ours, limits }: Row): { median: number; p95: number } | null {
  const [budget] = limits;
  if (budget === undefined) return null;
  return { median: ours.median / budget.most, p95: ours.p95 / budget.most };
}

/** Of a figure with a unit it is also said how much of it was reached. */
function limitText(row: Row, limit: Limit): string {
  if (limit.kind === 'ratio') return `${limit.most} ×`;
  const reached = `${Math.round((100 * valueFor(row, limit)) / limit.most)} % of it`;
  return `${boundText(limit, row.unit)} (${reached})`;
}

function boundText({ kind, most }: Exclude<Limit, { kind: 'ratio' }>, unit: Unit): string {
  switch (kind) {
    case 'median':
      return `${most} ${unit}`;
    case 'p95':
      return `p95 ${most} ${unit}`;
    case 'each':
      return `each ${most} ${unit}`;
  }
}

/** Three figures are more than such a measurement can tell apart. */
function times(ratio: number): string {
  return `${ratio >= 100 ? ratio.toFixed(0) : ratio.toPrecision(3)} ×`;
}

export const FROM = '<!-- npm run bench -- --readme writes from here -->';
export const TO = '<!-- to here -->';

/** The text with everything between the two marks replaced. Throws where a mark is missing. */
export function betweenMarks(text: string, inside: string): string {
  const from = text.indexOf(FROM);
  const to = text.indexOf(TO, from);
  if (from < 0 || to < 0) throw new Error(`got a text without ${from < 0 ? FROM : TO}`);
  return `${text.slice(0, from + FROM.length)}\n\n${inside}\n\n${text.slice(to)}`;
}
