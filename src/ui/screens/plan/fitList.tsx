/** The ways to a wished size, ranked by how little they change; one tap takes one. */
import type { Mm, Units } from '../../../core/measure/length.ts';
import type { Fit, FitChange } from '../../../core/planner/fits.ts';
import { length } from '../../format.ts';
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
  return (
    <>
      <p class="fits-now" role="status">
        Now {length(reached, units)}, {missWords(miss, units)}.
        {fits.length === 0 ? ' No way leads nearer.' : ''}
      </p>
      <ul class="fits">
        {fits.map((fit) => (
          <li key={fit.changes.map((change) => `${change.path} ${change.to}`).join()}>
            <button type="button" class="button" onClick={() => onTake(fit)}>
              <strong>{wayWords(fit, units)}</strong>
              <span>
                reaches {length(fit.reached, units)}, {missWords(fit.miss, units)};{' '}
                {sharesWords(fit)},{' '}
                {fit.mirrored ? 'reads the same from both ends' : 'not mirrored'}
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
  return changes.length === 1 ? `changes by ${percent}` : `rows change by up to ${percent}`;
}

function wayWords({ way, changes }: Fit, units: Units): string {
  const [first] = changes;
  if (way === 'in-proportion' || first === undefined) return 'Everything in proportion';
  const change = `${placeWords(first.path)}: ${changeWords(first, units)}`;
  if (way === 'repeat-in-proportion') return `${change}, the rest in proportion`;
  return way === 'pair' ? `${change}, and its mirror with it` : change;
}

function changeWords({ kind, from, to }: FitChange, units: Units): string {
  if (kind === 'loomLength') return `${length(from, units)} becomes ${length(to, units)}`;
  return `${from} ${kind} become ${to}`;
}

/** `warp.order[2].of[0]` → “Row 3.1”: the rows as they are numbered on the screen. */
function placeWords(path: string): string {
  const places = [...path.replace(/^pieces\[\d+\]/, '').matchAll(/\[(\d+)\]/g)];
  return `Row ${places.map(([, n]) => Number(n) + 1).join('.')}`;
}
