/** What a card on the bench says is due, and what is tapped when it is done. */
import type { Due } from '../../../core/bench/dues.ts';
import type { AimReport } from '../../../core/bench/measuring.ts';
import type { OpenDue } from '../../../core/bench/openDues.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { inOurNumbers } from '../../format.ts';
import { t } from '../../language/t.ts';
import { dueTitle, far, names } from './words.ts';

export interface DueWords {
  readonly title: string;
  readonly text: string;
  readonly done: string;
}

export function dueWords(plan: Plan, progress: Progress, open: OpenDue): DueWords {
  switch (open.kind) {
    case 'look':
      return {
        title: t('Look at the loom'),
        text: t(
          'These picks were worked out from a length. Which shed is next, and where do the shuttles lie?',
        ),
        done: t('Tell'),
      };
    case 'advance':
      return { title: t('Advance the warp'), text: ADVANCE[open.why], done: t('Advanced') };
    case 'aimed':
      return {
        title: t('Aimed at the real beat'),
        text: aimWords(plan, progress, open.report),
        done: t('Good'),
      };
    case 'jump':
      return { title: t('The beat has changed'), text: jumpWords(open.ratio), done: t('Seen') };
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
  if (next === undefined) return t('The blocks keep their lengths.');
  const yarns = [...new Set(next.it.laid.period.yarns)];
  const n = changes.length - 1;
  const values = { yarns: names(plan, yarns), now: next.it.picks, before: next.picks };
  const first = t('{yarns}: {now} picks instead of {before}.', values);
  return n === 0
    ? first
    : `${first} ${t('{n, plural, one {# more block changes} other {# more blocks change}} too.', { n })}`;
}

function jumpWords(ratio: number): string {
  const percent = Math.max(1, Math.round(Math.abs(ratio - 1) * 100));
  const how = ratio > 1 ? 'looser' : 'tighter';
  return t(
    'About {percent} % {how, select, looser {looser} other {tighter}} than before: the lengths are reckoned with it from here on.',
    { percent, how },
  );
}

const ADVANCE = {
  depth: t('The fell has come close to the heddle.'),
  'stitch-first': t('Hemstitch first: after advancing the edge is hard to reach.'),
  'room-to-stitch': t(
    'So that there is room to hemstitch the start of this piece before the next advance.',
  ),
} as const;

/** A due of the course itself, wherever the weaver is. */
export function courseWords(plan: Plan, due: Due): DueWords {
  return { title: dueTitle(plan, due), ...courseText(plan, due) };
}

type Text = Omit<DueWords, 'title'>;

function courseText(plan: Plan, due: Due): Text {
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

function stitchWords(plan: Plan, due: OneOf<'tail' | 'endTail' | 'hemstitch'>): Text {
  return due.kind === 'hemstitch'
    ? { text: groupWords(due), done: t('Stitched') }
    : { text: tailWords(plan, due), done: t('Done') };
}

function tailWords(plan: Plan, due: OneOf<'tail' | 'endTail'>): string {
  const { side } = due;
  if (due.kind === 'tail') {
    return t(
      'On the {side, select, left {left} other {right}}, to hemstitch with: {n} times the width.',
      { side, n: inOurNumbers(String(plan.weaving.tailWidths)) },
    );
  }
  return due.wrongSide
    ? t('It falls on the {side, select, left {left} other {right}}, away from your working side.', {
        side,
      })
    : t('On the {side, select, left {left} other {right}}, then cut the yarn.', { side });
}

function clothWords(plan: Plan, due: OneOf<'hemBegins' | 'hemEnds' | 'lockEdge'>): Text {
  switch (due.kind) {
    case 'hemBegins':
      return {
        text: t('{length} on the loom.', { length: far(plan, due.loomLength) }),
        done: t('Done'),
      };
    case 'hemEnds':
      return {
        text: t('The cloth itself begins here: the hem folds to this line.'),
        done: t('Seen'),
      };
    case 'lockEdge': {
      const text = t(
        '{n, plural, one {At this change} other {In this block, at every change,}} {how, select, floating {go round the floating selvedge} other {lock it round the resting yarn}}.',
        { n: due.places, how: plan.warp.floatingSelvedges ? 'floating' : '' },
      );
      return { text, done: t('Seen') };
    }
  }
}

function partingWords(plan: Plan, due: OneOf<'cutYarns' | 'gap' | 'cutOff'>): Text {
  switch (due.kind) {
    case 'cutYarns': {
      const yarns = names(plan, due.yarns);
      const text = t('{yarns}: no yarn is carried over the gap.', { yarns });
      return { text, done: t('Cut') };
    }
    case 'gap':
      return {
        text: t('Bare warp, or a spacer, between this piece and the next.'),
        done: t('Done'),
      };
    case 'cutOff':
      return {
        text: t('Leave the fringe, then cut the cloth off the loom.'),
        done: t('Cut off'),
      };
  }
}

function groupWords({ groups, side, edge }: OneOf<'hemstitch'>): string {
  return t(
    '{groups, plural, one {# group} other {# groups}} of {size} ends{larger, plural, =0 {} other {, # of them of {more}}}, starting on the {side, select, left {left} other {right}}{edge, select, beginning {, before advancing} other {}}.',
    { ...groups, more: groups.size + 1, side, edge },
  );
}
