/** What the bench says of the pick to throw and of those after it, from what the core derives. */
import type { Due } from '../../../core/bench/dues.ts';
import type { PickFacts } from '../../../core/bench/pickAt.ts';
import type { BlockRole } from '../../../core/plan/blocks.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { dueTitle, nameOf, names } from './words.ts';

/** Whether the plan leaves this pick to the weaver: then it only stands for one more of the yarn in hand. */
export const isByEye = ({ block: { block, left } }: PickFacts) =>
  block.laid.isOpen === true && left === 1;

/** What the hands do with this pick besides throwing it. Empty in the middle of a stripe. */
export function handWords(plan: Plan, facts: PickFacts): readonly string[] {
  return [...comingWords(plan, facts), ...catchWords(plan, facts), ...leavingWords(plan, facts)];
}

function comingWords(plan: Plan, { coming, yarn, from, parked }: PickFacts): readonly string[] {
  if (coming === null) return [];
  const values = {
    yarn: nameOf(plan, yarn),
    n: parked.reach,
    side: from,
    way: plan.weaving.newYarnComesUp,
    other: nameOf(plan, coming.instead),
    over: coming.overPicks > 2 ? coming.overPicks : 0,
  };
  const reach =
    parked.reach > 0
      ? [t('Reach past {n, plural, one {# shuttle} other {# shuttles}} for {yarn}.', values)]
      : [];
  if (coming.entry === 'new') {
    return [
      ...reach,
      coming.instead === null
        ? t('Start {yarn} on the {side, select, left {left} other {right}}.', values)
        : t(
            'Start {yarn} on the {side, select, left {left} other {right}}, coming up {way, select, over {over} other {under}} {other}.',
            values,
          ),
    ];
  }
  const lock = coming.edge === 'not-caught' ? [t('Lock the edge end.')] : [];
  return [
    ...reach,
    t(
      'Bring {yarn} up {way, select, over {over} other {under}} {other}{over, plural, =0 {} other {, over # picks}}.',
      values,
    ),
    ...lock,
  ];
}

function catchWords(plan: Plan, { catches, yarn }: PickFacts): readonly string[] {
  const values = { yarns: names(plan, catches), yarn: nameOf(plan, yarn) };
  return catches.length === 0 ? [] : [t('Catch {yarns} round {yarn}.', values)];
}

function leavingWords(plan: Plan, facts: PickFacts): readonly string[] {
  const { leaving, yarn } = facts;
  if (leaving === null || isByEye(facts)) return [];
  const values = { yarn: nameOf(plan, yarn) };
  switch (leaving.rest) {
    case 'float':
      return [];
    case 'catch':
      return [t('Then {yarn} rests, caught on the way.', values)];
    case 'cut':
      return [t('Then cut {yarn} and tuck its tail.', values)];
    case 'ends':
      return leaving.nextYarn === null
        ? []
        : [t('Then cut {yarn}: it is done in this piece.', values)];
  }
}

/** Where in its block this pick lies, in the block's own terms. */
export function turnWords(plan: Plan, { turn, block }: PickFacts): string {
  const { laid, loomLength } = block.block;
  if (laid.role === 'free') return t('by eye');
  if (laid.role === 'alternation') return t('turn {n} of {of}', { n: turn.index + 1, of: turn.of });
  return `${ROLE_WORDS[laid.role]} ${length(loomLength, plan.units)}`;
}

export const ROLE_WORDS: Record<BlockRole, string> = {
  solid: t('solid'),
  alternation: t('alternation'),
  free: t('by eye'),
  hem: t('hem'),
  zigzag: t('zigzag'),
  plain: t('plain'),
};

/** How far to the next change of colour, and of what. */
export function nextWords(plan: Plan, { stripe }: PickFacts): string {
  const values = {
    n: stripe.picks - stripe.done,
    length: length(stripe.lengthLeft, plan.units),
    yarn: nameOf(plan, stripe.nextYarn),
  };
  return stripe.nextYarn === null
    ? t('{n, plural, one {# pick} other {# picks}} · {length}, then the piece ends', values)
    : t('{n, plural, one {# pick} other {# picks}} · {length}, then {yarn}', values);
}

/** What comes after the next change: the end of an alternation, or what falls due soon. */
export function aheadWords(
  plan: Plan,
  { block, stripe, pick }: PickFacts,
  due: Due | null,
): string {
  const soon = due === null ? Number.POSITIVE_INFINITY : due.at - pick;
  if (due !== null && soon <= SOON) {
    const values = { due: dueTitle(plan, due), n: soon };
    return t('{due} in {n, plural, one {# pick} other {# picks}}', values);
  }
  if (block.left <= stripe.picks - stripe.done) return '';
  return t('Block: {n, plural, one {# pick} other {# picks}} · {length} left', {
    n: block.left,
    length: length(block.lengthLeft, plan.units),
  });
}

/** Picks ahead at which the bench begins to speak of what will be due. */
const SOON = 12;
