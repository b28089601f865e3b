/** The ways to a wished size, ranked by how little they change; one tap takes one. */
import type { Mm, Units } from '../../../core/measure/length.ts';
import type { Fit, FitChange } from '../../../core/planner/fits.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { missWords } from './missWords.ts';

export interface FitListProps {
  readonly fits: readonly Fit[];
  readonly units: Units;
  /** What the plan comes to as it is, and how far that is from the wish. */
  readonly reached: Mm;
  readonly miss: Mm;
  readonly onTake: (fit: Fit) => void;
}

export function FitList({ fits, units, reached, miss, onTake }: FitListProps) {
  const now = { reached: length(reached, units), miss: missWords(miss, units) };
  return (
    <>
      <p class="fits-now" role="status">
        {fits.length === 0
          ? t('Now {reached}, {miss}. No way leads nearer.', now)
          : t('Now {reached}, {miss}.', now)}
      </p>
      <ul class="fits">
        {fits.map((fit) => (
          <li key={fit.changes.map((change) => `${change.path} ${change.to}`).join()}>
            <button type="button" class="button" onClick={() => onTake(fit)}>
              <strong>{wayWords(fit, units)}</strong>
              <span>
                {t(
                  'reaches {reached}, {miss}; {shares}, {mirrored, select, yes {reads the same from both ends} other {not mirrored}}',
                  {
                    reached: length(fit.reached, units),
                    miss: missWords(fit.miss, units),
                    shares: sharesWords(fit),
                    mirrored: fit.mirrored ? 'yes' : 'no',
                  },
                )}
              </span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

/** How much of itself a row gains or loses; of several the one that changes most. */
function sharesWords({ changes }: Fit): string {
  const most = Math.max(...changes.map(({ from, to }) => Math.abs(to - from) / from));
  const percent = `${Math.round(100 * most)} %`;
  return changes.length === 1
    ? t('changes by {percent}', { percent })
    : t('rows change by up to {percent}', { percent });
}

function wayWords({ way, changes }: Fit, units: Units): string {
  const [first] = changes;
  if (way === 'in-proportion' || first === undefined) return t('Everything in proportion');
  const change = { row: rowNumber(first.path), change: changeWords(first, units) };
  if (way === 'repeat-in-proportion')
    return t('Row {row}: {change}, the rest in proportion', change);
  return way === 'pair'
    ? t('Row {row}: {change}, and its mirror with it', change)
    : t('Row {row}: {change}', change);
}

function changeWords({ kind, from, to }: FitChange, units: Units): string {
  if (kind === 'loomLength')
    return t('{from} becomes {to}', { from: length(from, units), to: length(to, units) });
  return t(
    '{from} {kind, select, ends {ends} picks {picks} turns {turns} other {times}} become {to}',
    { from, kind, to },
  );
}

/** `warp.order[2].of[0]` → `3.1`: the rows as they are numbered on the screen. */
function rowNumber(path: string): string {
  const places = [...path.replace(/^pieces\[\d+\]/, '').matchAll(/\[(\d+)\]/g)];
  return places.map(([, n]) => Number(n) + 1).join('.');
}
