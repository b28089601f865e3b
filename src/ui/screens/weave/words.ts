/** What the bench says, from what the core derives. */
import type { Due } from '../../../core/bench/dues.ts';
import type { AimReport } from '../../../core/bench/measuring.ts';
import type { OpenDue } from '../../../core/bench/openDues.ts';
import type { PickFacts } from '../../../core/bench/pickAt.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { count, length, list } from '../../format.ts';

const nameOf = (plan: Plan, yarn: number | null) =>
  yarn === null ? '' : (plan.yarns[yarn]?.name ?? '');
const names = (plan: Plan, yarns: readonly number[]) =>
  list(yarns.map((yarn) => nameOf(plan, yarn)));

/** Whether the plan leaves this pick to the weaver: then it only stands for one more of the yarn in hand. */
export const isByEye = ({ block: { block, left } }: PickFacts) =>
  block.laid.isOpen === true && left === 1;

/** What the hands do with this pick besides throwing it. Empty in the middle of a stripe. */
export function handWords(plan: Plan, facts: PickFacts): readonly string[] {
  return [...comingWords(plan, facts), ...catchWords(plan, facts), ...leavingWords(plan, facts)];
}

function comingWords(plan: Plan, { coming, yarn, from, parked }: PickFacts): readonly string[] {
  if (coming === null) return [];
  const it = nameOf(plan, yarn);
  const reach = parked.reach > 0 ? [`Reach past ${count(parked.reach, 'shuttle')} for ${it}.`] : [];
  const under = plan.weaving.newYarnComesUp;
  const other = nameOf(plan, coming.instead);
  if (coming.entry === 'new') {
    return [
      ...reach,
      coming.instead === null
        ? `Start ${it} on the ${from}.`
        : `Start ${it} on the ${from}, coming up ${under} ${other}.`,
    ];
  }
  const lock = coming.edge === 'not-caught' ? ['Lock the edge end.'] : [];
  const over = coming.overPicks > 2 ? `, over ${count(coming.overPicks, 'pick')}` : '';
  return [...reach, `Bring ${it} up ${under} ${other}${over}.`, ...lock];
}

function catchWords(plan: Plan, { catches, yarn }: PickFacts): readonly string[] {
  return catches.length === 0 ? [] : [`Catch ${names(plan, catches)} round ${nameOf(plan, yarn)}.`];
}

function leavingWords(plan: Plan, facts: PickFacts): readonly string[] {
  const { leaving, yarn } = facts;
  if (leaving === null || isByEye(facts)) return [];
  const it = nameOf(plan, yarn);
  switch (leaving.rest) {
    case 'float':
      return [];
    case 'catch':
      return [`Then ${it} rests, caught on the way.`];
    case 'cut':
      return [`Then cut ${it} and tuck its tail.`];
    case 'ends':
      return leaving.nextYarn === null ? [] : [`Then cut ${it}: it is done in this piece.`];
  }
}

/** Where in its block this pick lies, in the block's own terms. */
export function turnWords(plan: Plan, { turn, block }: PickFacts): string {
  const { laid, loomLength } = block.block;
  if (laid.role === 'free') return 'by eye';
  if (laid.role === 'alternation') return `turn ${turn.index + 1} of ${turn.of}`;
  return `${laid.role} ${length(loomLength, plan.units)}`;
}

/** How far to the next change of colour, and of what. */
export function nextWords(plan: Plan, { stripe }: PickFacts): string {
  const left = stripe.picks - stripe.done;
  const then = stripe.nextYarn === null ? 'the piece ends' : nameOf(plan, stripe.nextYarn);
  return `${count(left, 'pick')} · ${length(stripe.lengthLeft, plan.units)}, then ${then}`;
}

/** What comes after the next change: the end of an alternation, or what falls due soon. */
export function aheadWords(
  plan: Plan,
  { block, stripe, pick }: PickFacts,
  due: Due | null,
): string {
  const soon = due === null ? Number.POSITIVE_INFINITY : due.at - pick;
  if (due !== null && soon <= SOON) return `${dueTitle(plan, due)} in ${count(soon, 'pick')}`;
  if (block.left <= stripe.picks - stripe.done) return '';
  return `Block: ${count(block.left, 'pick')} · ${length(block.lengthLeft, plan.units)} left`;
}

/** Picks ahead at which the bench begins to speak of what will be due. */
const SOON = 12;

export interface DueWords {
  readonly title: string;
  readonly text: string;
  readonly done: string;
}

export function dueWords(plan: Plan, progress: Progress, open: OpenDue): DueWords {
  switch (open.kind) {
    case 'look':
      return {
        title: 'Look at the loom',
        text: 'These picks were worked out from a length. Which shed is next, and where do the shuttles lie?',
        done: 'Tell',
      };
    case 'advance':
      return { title: 'Advance the warp', text: ADVANCE[open.why], done: 'Advanced' };
    case 'aimed':
      return {
        title: 'Aimed at the real beat',
        text: aimWords(plan, progress, open.report),
        done: 'Good',
      };
    case 'jump':
      return { title: 'The beat has changed', text: jumpWords(open.ratio), done: 'Seen' };
    case 'course':
      return courseWords(plan, open.due);
  }
}

/** What the last reading changed in the blocks to come: the next of them by name. */
function aimWords(plan: Plan, { course }: Progress, { before }: AimReport): string {
  const changes = before.flatMap(({ piece, block, picks }) => {
    const it = course.blocks[(course.pieces[piece]?.firstBlock ?? 0) + block];
    return it === undefined || it.picks === picks ? [] : [{ it, picks }];
  });
  const [next] = changes;
  if (next === undefined) return 'The blocks keep their lengths.';
  const yarns = [...new Set(next.it.laid.period.yarns)];
  const others = changes.length - 1;
  const more =
    others === 0 ? '' : ` ${count(others, 'more block changes', 'more blocks change')} too.`;
  return `${names(plan, yarns)}: ${next.it.picks} picks instead of ${next.picks}.${more}`;
}

function jumpWords(ratio: number): string {
  const percent = Math.max(1, Math.round(Math.abs(ratio - 1) * 100));
  const how = ratio > 1 ? 'looser' : 'tighter';
  return `About ${percent} % ${how} than before: the lengths are reckoned with it from here on.`;
}

const ADVANCE = {
  depth: 'The fell has come close to the heddle.',
  'stitch-first': 'Hemstitch first: after advancing the edge is hard to reach.',
  'room-to-stitch':
    'So that there is room to hemstitch the start of this piece before the next advance.',
} as const;

/** A due of the course itself, wherever the weaver is. */
export function courseWords(plan: Plan, due: Due): DueWords {
  switch (due.kind) {
    case 'tail':
    case 'endTail':
    case 'hemstitch':
      return stitchWords(plan, due);
    case 'hemBegins':
    case 'hemEnds':
    case 'lockEdge':
      return clothWords(plan, due);
    case 'cutYarns':
    case 'gap':
    case 'cutOff':
      return partingWords(plan, due);
  }
}

type OneOf<K extends Due['kind']> = Extract<Due, { kind: K }>;

const far = (plan: Plan, mm: number) => length(mm, plan.units, mm > 900 ? 'long' : 'short');

function stitchWords(plan: Plan, due: OneOf<'tail' | 'endTail' | 'hemstitch'>): DueWords {
  if (due.kind === 'hemstitch') {
    const first = due.edge === 'beginning' ? ', before advancing' : '';
    const text = `${groupWords(due.groups)}, starting on the ${due.side}${first}.`;
    return { title: `Hemstitch the ${due.edge}`, text, done: 'Stitched' };
  }
  // Not in quarter yards: rounded down by most of one, the tail would be too short.
  const title = `Leave a tail of ${length(due.length, plan.units)}`;
  return { title, text: tailWords(plan, due), done: 'Done' };
}

function tailWords(plan: Plan, due: OneOf<'tail' | 'endTail'>): string {
  if (due.kind === 'tail') {
    return `On the ${due.side}, to hemstitch with: ${plan.weaving.tailWidths} times the width.`;
  }
  if (!due.wrongSide) return `On the ${due.side}, then cut the yarn.`;
  return `It falls on the ${due.side}, away from your working side.`;
}

function clothWords(plan: Plan, due: OneOf<'hemBegins' | 'hemEnds' | 'lockEdge'>): DueWords {
  switch (due.kind) {
    case 'hemBegins': {
      const title = `Hem in ${nameOf(plan, due.yarn)}`;
      return { title, text: `${far(plan, due.loomLength)} on the loom.`, done: 'Done' };
    }
    case 'hemEnds':
      return {
        title: 'The hem is woven',
        text: 'The cloth itself begins here: the hem folds to this line.',
        done: 'Seen',
      };
    case 'lockEdge': {
      const when = due.places === 1 ? 'At this change' : 'In this block, at every change,';
      const how = plan.warp.floatingSelvedges
        ? 'go round the floating selvedge.'
        : 'lock it round the resting yarn.';
      return { title: 'The edge end is not caught', text: `${when} ${how}`, done: 'Seen' };
    }
  }
}

function partingWords(plan: Plan, due: OneOf<'cutYarns' | 'gap' | 'cutOff'>): DueWords {
  switch (due.kind) {
    case 'cutYarns': {
      const text = `${names(plan, due.yarns)}: no yarn is carried over the gap.`;
      return { title: 'Cut the yarns', text, done: 'Cut' };
    }
    case 'gap':
      return {
        title: `Leave a gap of ${far(plan, due.length)}`,
        text: 'Bare warp, or a spacer, between this piece and the next.',
        done: 'Done',
      };
    case 'cutOff':
      return {
        title: 'All pieces are woven',
        text: 'Leave the fringe, then cut the cloth off the loom.',
        done: 'Cut off',
      };
  }
}

function groupWords({
  groups,
  larger,
  size,
}: {
  readonly groups: number;
  readonly larger: number;
  readonly size: number;
}): string {
  const rest = larger === 0 ? '' : `, ${larger} of them of ${size + 1}`;
  return `${count(groups, 'group')} of ${size} ends${rest}`;
}

/** A due still to come, in a few words. */
export function dueTitle(plan: Plan, due: Due): string {
  return courseWords(plan, due).title;
}
