/** What stands on the cards, from what the core lays out. */

import type { BlockLine, CardGroup, CardLine, DueLine } from '../../../core/paper/loomCard.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { length, list, shedWord } from '../../format.ts';
import { t } from '../../language/t.ts';
import { courseWords } from '../weave/dueWords.ts';

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
  free: t('by eye'),
  hem: t('hem'),
  zigzag: t('seam allowance, zigzag'),
  plain: t('seam allowance'),
} as const;

function blockWords(plan: Plan, line: BlockLine): LineWords {
  if (line.reach === 'byEye') return byEyeWords(plan, line);
  if (line.reach === 'beyond') {
    const picks = t('{n, plural, one {# pick} other {# picks}}', { n: line.picks });
    return { main: roundWords(plan, line), more: moreWords(line), picks, first: '', at: '' };
  }
  return {
    main: roundWords(plan, line),
    more: moreWords(line),
    picks: String(line.picks),
    first: firstWords(plan, line),
    at: length(line.loomEnd, plan.units),
  };
}

/** Room to write on: what is thrown here is the weaver's. */
function byEyeWords(plan: Plan, line: BlockLine): LineWords {
  const { meant, name, picks } = line;
  const about = meant === null ? [] : [t('about {far}', { far: length(meant, plan.units) })];
  const thrown =
    picks === 0 ? [] : [t('{n, plural, one {# pick} other {# picks}} thrown', { n: picks })];
  return {
    main: t('By eye'),
    more: [...(name === null ? [] : [name]), ...about, ...thrown].join(', '),
    picks: '',
    first: firstWords(plan, line),
    at: '',
  };
}

const firstWords = (plan: Plan, { from, shed }: BlockLine) =>
  t('{from, select, left {left} other {right}}, {shed}', {
    from,
    shed: shedWord(plan.loom.kind, shed),
  });

/** `A moss`, or `A moss 2, B chalk 2 by turns`. */
function roundWords(plan: Plan, { role, round }: BlockLine): string {
  const yarns = round.map(({ yarn, picks }) => {
    const { letter = '', name = '' } = plan.yarns[yarn] ?? {};
    return role === 'alternation' ? `${letter} ${name} ${picks}` : `${letter} ${name}`;
  });
  return yarns.join(', ');
}

function moreWords({ role, name, passes, turns, lastTurnPicks }: BlockLine): string {
  const pass = passes.map(({ index, of }) => t('round {n} of {of}', { n: index + 1, of }));
  const edge = role === 'solid' || role === 'alternation' ? [] : [EDGES[role]];
  const all =
    role === 'alternation' ? [t('{n, plural, one {# turn} other {# turns}}', { n: turns })] : [];
  const last =
    role === 'alternation' && lastTurnPicks !== null
      ? [t('the last of {picks}', { picks: lastTurnPicks })]
      : [];
  return [...(name === null ? [] : [name]), ...edge, ...all, ...last, ...pass].join(', ');
}

function dueWords(plan: Plan, { reach, due, after, loomLength }: DueLine): LineWords {
  const { title, text } = courseWords(plan, due);
  if (reach === 'beyond')
    return { main: title, more: text, picks: t('at the end'), first: '', at: '' };
  return {
    main: title,
    more: text,
    picks: after === 0 ? t('before pick 1') : t('after pick {n}', { n: after }),
    first: '',
    at: length(loomLength, plan.units),
  };
}

export const namesOf = (plan: Plan, pieces: readonly number[]) =>
  pieces.map((piece) => plan.pieces[piece]?.name ?? '');

export function groupWords(plan: Plan, group: CardGroup) {
  const { pieces, picks, loomLength, lines } = group;
  const far = t('{far} on the loom{each, select, yes { each} other {}}', {
    far: length(loomLength, plan.units),
    each: pieces.length > 1 ? 'yes' : 'no',
  });
  const open = lines.flatMap((it) => (it.kind === 'block' && it.reach === 'byEye' ? [it] : []));
  const isEndless = open.some((it) => it.meant === null);
  const byEye = isEndless ? t('by eye, as long as it comes') : t('by eye, about {far}', { far });
  return {
    title: list(namesOf(plan, pieces)),
    more:
      open.length === 0
        ? t('{n, plural, one {# pick} other {# picks}}, {long}', { n: picks, long: far })
        : byEye,
  };
}
