/** What the edges will do, told once for all pieces it is the same for. */
import type { Plan } from '../../../core/plan/plan.ts';
import type { EdgeWarning } from '../../../core/planner/sheet.ts';
import { count, length, list } from '../../format.ts';

export interface EdgeNote {
  readonly pieces: readonly string[];
  readonly words: string;
}

export function edgeNotes(plan: Plan, warnings: readonly EdgeWarning[]): readonly EdgeNote[] {
  const found = new Map<string, readonly string[]>();
  for (const warning of gathered(warnings)) {
    const words = wordsOf(plan, warning);
    const name = plan.pieces[warning.piece]?.name ?? '';
    found.set(words, [...(found.get(words) ?? []), name]);
  }
  return [...found].map(([words, pieces]) => ({ pieces, words }));
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
      const held = warning.floatingSelvedges ? ' The floating selvedges catch it.' : '';
      const back = warning.yarns.length === 1 ? 'comes back' : 'come back';
      return `the edge end is not caught ${times(warning.places)} where ${list(warning.yarns.map(name))} ${back}.${held}`;
    }
    case 'cut-for-length':
      return `${name(warning.yarn)} would float up to ${at(warning.longest)} and is cut and started again, ${times(warning.places)}.`;
    case 'long-float':
      return `${name(warning.yarn)} is carried up to ${at(warning.longest)}, further than your limit.`;
    case 'tail-wrong-side':
      return `the last tail falls on the ${warning.side}; one pick more would bring it to the side you stitch from.`;
  }
}

const times = (places: number) => (places === 1 ? 'once' : count(places, 'time'));
