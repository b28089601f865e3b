/** What the edges will do, told once for all pieces it is the same for. */
import type { Plan } from '../../../core/plan/plan.ts';
import type { EdgeWarning } from '../../../core/planner/sheet.ts';
import { length, list } from '../../format.ts';
import { t } from '../../language/t.ts';

export interface EdgeNote {
  /** Names the note among the others, whatever it says. */
  readonly key: string;
  readonly pieces: readonly string[];
  readonly words: string;
}

export function edgeNotes(plan: Plan, warnings: readonly EdgeWarning[]): readonly EdgeNote[] {
  const found = new Map<string, EdgeNote>();
  // Pieces woven alike are warned alike: what is the same but for the piece is put into words once.
  const told = new Map<string, string>();
  for (const warning of gathered(warnings)) {
    const same = JSON.stringify({ ...warning, piece: 0, path: '' });
    const words = told.get(same) ?? wordsOf(plan, warning);
    told.set(same, words);
    const { key, pieces } = found.get(words) ?? { key: keyOf(warning), pieces: [] };
    const name = plan.pieces[warning.piece]?.name ?? '';
    found.set(words, { key, pieces: [...pieces, name], words });
  }
  return [...found.values()];
}

/** Warnings come one a block; the same thing in several blocks of a piece is one. */
function gathered(warnings: readonly EdgeWarning[]): readonly EdgeWarning[] {
  const found = new Map<string, EdgeWarning>();
  for (const warning of warnings) {
    const key = keyOf(warning);
    const before = found.get(key);
    found.set(key, before === undefined ? warning : both(before, warning));
  }
  return [...found.values()];
}

function keyOf(warning: EdgeWarning): string {
  const { kind, piece } = warning;
  if (kind === 'edge-not-caught') return [kind, piece, ...warning.yarns.toSorted()].join(' ');
  return [kind, piece, kind === 'tail-wrong-side' ? warning.side : warning.yarn].join(' ');
}

function both(one: EdgeWarning, other: EdgeWarning): EdgeWarning {
  if (!('places' in one && 'places' in other)) return one;
  const places = one.places + other.places;
  if (!('longest' in one && 'longest' in other)) return { ...one, places };
  return { ...one, places, longest: Math.max(one.longest, other.longest) };
}

function wordsOf(plan: Plan, warning: EdgeWarning): string {
  const name = (yarn: number) => plan.yarns[yarn]?.name ?? '';
  const at = (mm: number) => length(mm, plan.units);
  switch (warning.kind) {
    case 'edge-not-caught': {
      const bare = t(
        'the edge end is not caught {places, plural, one {once} other {# times}} where {yarns} {n, plural, one {comes back} other {come back}}.',
        {
          places: warning.places,
          yarns: list(warning.yarns.map(name)),
          n: warning.yarns.length,
        },
      );
      return warning.floatingSelvedges ? `${bare} ${t('The floating selvedges catch it.')}` : bare;
    }
    case 'cut-for-length':
      return t(
        '{yarn} would float up to {length} and is cut and started again, {places, plural, one {once} other {# times}}.',
        { yarn: name(warning.yarn), length: at(warning.longest), places: warning.places },
      );
    case 'long-float':
      return t('{yarn} is carried up to {length}, further than your limit.', {
        yarn: name(warning.yarn),
        length: at(warning.longest),
      });
    case 'tail-wrong-side':
      return t(
        'the last tail falls on the {side, select, left {left} other {right}}; one pick more would bring it to the side you stitch from.',
        { side: warning.side },
      );
  }
}
