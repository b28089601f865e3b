/** What stands on the cards, from what the core lays out. */
import type { BlockLine, CardGroup, CardLine, DueLine } from '../../../core/paper/loomCard.ts';
import { type Plan, SHED_WORDS } from '../../../core/plan/plan.ts';
import { count, length, list } from '../../format.ts';
import { courseWords } from '../weave/words.ts';

export interface LineWords {
  readonly main: string;
  readonly more: string;
  /** Picks of a block; of something due, when it is. */
  readonly picks: string;
  readonly first: string;
  /** Loom length at the end of a block, or where something is due. */
  readonly at: string;
}

export function lineWords(plan: Plan, line: CardLine): LineWords {
  return line.kind === 'block' ? blockWords(plan, line) : dueWords(plan, line);
}

const EDGES = {
  free: 'by eye',
  hem: 'hem',
  zigzag: 'seam allowance, zigzag',
  plain: 'seam allowance',
} as const;

function blockWords(plan: Plan, line: BlockLine): LineWords {
  return {
    main: roundWords(plan, line),
    more: moreWords(line),
    picks: String(line.picks),
    first: `${line.from}, ${SHED_WORDS[plan.loom.kind][line.shed]}`,
    at: length(line.loomEnd, plan.units),
  };
}

/** `A moss`, or `A moss 2, B chalk 2 by turns`. */
function roundWords(plan: Plan, { role, round }: BlockLine): string {
  const yarns = round.map(({ yarn, picks }) => {
    const { letter = '', name = '' } = plan.yarns[yarn] ?? {};
    return role === 'alternation' ? `${letter} ${name} ${picks}` : `${letter} ${name}`;
  });
  return yarns.join(', ');
}

function moreWords({ role, name, passes, turns, lastTurnPicks }: BlockLine): string {
  const pass = passes.map(({ index, of }) => `round ${index + 1} of ${of}`);
  const edge = role === 'solid' || role === 'alternation' ? [] : [EDGES[role]];
  const all = role === 'alternation' ? [count(turns, 'turn')] : [];
  const last =
    role === 'alternation' && lastTurnPicks !== null ? [`the last of ${lastTurnPicks}`] : [];
  return [...(name === null ? [] : [name]), ...edge, ...all, ...last, ...pass].join(', ');
}

function dueWords(plan: Plan, { due, after, loomLength }: DueLine): LineWords {
  const { title, text } = courseWords(plan, due);
  return {
    main: title,
    more: text,
    picks: after === 0 ? 'before pick 1' : `after pick ${after}`,
    first: '',
    at: length(loomLength, plan.units),
  };
}

export const namesOf = (plan: Plan, pieces: readonly number[]) =>
  pieces.map((piece) => plan.pieces[piece]?.name ?? '');

export function groupWords(plan: Plan, { pieces, picks, loomLength }: CardGroup) {
  const each = pieces.length > 1 ? ' each' : '';
  return {
    title: list(namesOf(plan, pieces)),
    more: `${count(picks, 'pick')}, ${length(loomLength, plan.units)} on the loom${each}`,
  };
}
