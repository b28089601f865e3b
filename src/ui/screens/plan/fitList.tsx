/** The ways to a wished size, ranked by how little they change; one tap takes one. */
import type { Units } from '../../../core/measure/length.ts';
import type { Fit, FitChange } from '../../../core/planner/fits.ts';
import { length } from '../../format.ts';

export interface FitListProps {
  readonly fits: readonly Fit[];
  readonly units: Units;
  /** Whether a wish was told at all. */
  readonly asked: boolean;
  readonly onTake: (fit: Fit) => void;
}

export function FitList({ fits, units, asked, onTake }: FitListProps) {
  if (!asked) return null;
  if (fits.length === 0) {
    return <p class="hint">No way leads nearer: the plan is as near as it can be.</p>;
  }
  return (
    <ul class="fits">
      {fits.map((fit) => (
        <li key={fit.changes.map((change) => `${change.path} ${change.to}`).join()}>
          <button type="button" class="button" onClick={() => onTake(fit)}>
            <strong>{wayWords(fit, units)}</strong>
            <span>
              reaches {length(fit.reached, units)}
              {missWords(fit, units)}, changes {Math.round(fit.cost * 100)} %,{' '}
              {fit.mirrored ? 'reads the same from both ends' : 'not mirrored'}
            </span>
          </button>
        </li>
      ))}
    </ul>
  );
}

function missWords({ miss }: Fit, units: Units): string {
  if (Math.abs(miss) < 1) return '';
  return miss > 0 ? `, ${length(miss, units)} over` : `, ${length(-miss, units)} under`;
}

function wayWords({ way, changes }: Fit, units: Units): string {
  const [first] = changes;
  if (way === 'in-proportion' || first === undefined) return 'Everything in proportion';
  const change = `${placeWords(first.path)}: ${changeWords(first, units)}`;
  if (way === 'repeat-in-proportion') return `${change}, the rest in proportion`;
  return way === 'pair' ? `${change}, and its mirror with it` : change;
}

const KINDS = { times: 'times', ends: 'ends', turns: 'turns', picks: 'picks' } as const;

function changeWords({ kind, from, to }: FitChange, units: Units): string {
  if (kind === 'loomLength') return `${length(from, units)} becomes ${length(to, units)}`;
  return `${from} ${KINDS[kind]} become ${to}`;
}

/** `warp.order[2].of[0]` → “Row 3.1”: the rows as they are numbered on the screen. */
function placeWords(path: string): string {
  const places = [...path.replace(/^pieces\[\d+\]/, '').matchAll(/\[(\d+)\]/g)];
  return `Row ${places.map(([, n]) => Number(n) + 1).join('.')}`;
}
