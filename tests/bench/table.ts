/** The rows as a table in Markdown. */
import { holds, type Limit, type Row, ratiosOf, type Unit } from './row.ts';

const HEAD = [
  'what',
  'median',
  'p95',
  'against',
  'median',
  'p95',
  'ratio of medians',
  'ratio of p95',
  'at most',
  'holds',
] as const;

/** @example tableOf(rows) // '| what | median | …' */
export function tableOf(rows: readonly Row[]): string {
  const rule = HEAD.map((_, i) => (i === 0 || i === 3 ? '---' : '---:'));
  return [HEAD, rule, ...rows.map(cellsOf)].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

function cellsOf(row: Row): readonly string[] {
  const { ours, floor, unit } = row;
  const ratios = ratiosOf(row);
  return [
    row.what,
    shown(ours.median, unit),
    shown(ours.p95, unit),
    floor?.what ?? '',
    floor === null ? '' : shown(floor.spread.median, unit),
    floor === null ? '' : shown(floor.spread.p95, unit),
    ratios === null ? '' : times(ratios.median),
    ratios === null ? '' : times(ratios.p95),
    row.limits.map((limit) => limitText(limit, unit)).join(', '),
    row.limits.length === 0 ? '' : holds(row) ? 'yes' : '**no**',
  ];
}

function limitText({ kind, most }: Limit, unit: Unit): string {
  switch (kind) {
    case 'ratio':
      return `${most} ×`;
    case 'median':
      return `${most} ${unit}`;
    case 'p95':
      return `${most} ${unit} p95`;
  }
}

/** Three figures are more than such a measurement can tell apart. */
function shown(value: number, unit: Unit): string {
  return `${figures(value)} ${unit}`;
}

function times(ratio: number): string {
  return `${figures(ratio)} ×`;
}

function figures(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(3);
}
