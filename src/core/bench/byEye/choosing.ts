/** Choosing a stretch of the woven cloth: how far it may go, step by step, or by what lies in it. */
import type { Mm } from '../../measure/length.ts';
import { layWeft, picksOf } from '../../plan/blocks.ts';
import type { Block, Letter } from '../../plan/plan.ts';
import type { Course } from '../course.ts';
import { partsOf } from '../endings/woven/parts.ts';
import { stripeIndexAt } from '../pickAt.ts';
import { recogniseBlocks } from './recogniseBlocks.ts';
import { type Stretch, stripesIn } from './stretch.ts';

/** The picks of a piece that are in the cloth, the fell lying before `pick`; null where none is. */
export function wovenOf(course: Course, piece: number, pick: number): Stretch | null {
  const it = course.pieces[piece];
  if (it === undefined) return null;
  const to = Math.min(pick, it.firstPick + it.picks);
  return to > it.firstPick ? { from: it.firstPick, to } : null;
}

/** The same without its hems. */
export function weftWovenOf(course: Course, piece: number, pick: number): Stretch | null {
  const woven = wovenOf(course, piece, pick);
  if (woven === null) return null;
  const { beginning, ending } = partsOf(course, piece);
  const from = woven.from + (beginning?.picks ?? 0);
  const to = Math.min(woven.to, ending?.firstPick ?? woven.to);
  return to > from ? { from, to } : null;
}

export type StretchEnd = 'from' | 'to';
export type StretchStep = 'stripe' | 'pick';

/**
 * The stretch with one end a stripe or a pick further on (1) or back (-1), never outside `within` and
 * never empty; the same stretch where there is no such place.
 */
export function movedEnd(
  course: Course,
  within: Stretch,
  stretch: Stretch,
  { end, by, way }: { readonly end: StretchEnd; readonly by: StretchStep; readonly way: 1 | -1 },
): Stretch {
  const at = stretch[end];
  const next = by === 'pick' ? at + way : stripeEdge(course, at, way);
  const held = Math.max(within.from, Math.min(within.to, next));
  return withEnd(stretch, end, held);
}

/** The stretch with one end before another pick, held inside `within` and one pick long at least. */
export function endDraggedTo(
  within: Stretch,
  stretch: Stretch,
  end: StretchEnd,
  pick: number,
): Stretch {
  const [least, most] =
    end === 'from' ? [within.from, stretch.to - 1] : [stretch.from + 1, within.to];
  return { ...stretch, [end]: Math.max(least, Math.min(most, Math.round(pick))) };
}

function withEnd(stretch: Stretch, end: StretchEnd, at: number): Stretch {
  const next = { ...stretch, [end]: at };
  return next.to > next.from ? next : stretch;
}

/** The nearest border of two stripes on one side of a place. */
function stripeEdge(course: Course, at: number, way: 1 | -1): number {
  const { firstPick } = course.stripes;
  if (way === 1) return at >= course.picks ? at : (firstPick[stripeIndexAt(course, at) + 1] ?? at);
  return at <= 0 ? 0 : (firstPick[stripeIndexAt(course, at - 1)] ?? 0);
}

/** A block recognised in the cloth, and the picks it lies in. */
export interface FoundBlock extends Stretch {
  readonly block: Block;
  /** Groups it stands in; of a group that is gone round more than once the first time is told. */
  readonly depth: number;
}

/** The blocks a stretch can be told in, each followed by those it holds. */
export function blocksFound(course: Course, stretch: Stretch): readonly FoundBlock[] {
  const blocks = recogniseBlocks(stripesIn(course, stretch));
  return foundIn(course, blocks, stretch.from, 0);
}

function foundIn(
  course: Course,
  blocks: readonly Block[],
  first: number,
  depth: number,
): readonly FoundBlock[] {
  let from = first;
  return blocks.flatMap((block) => {
    const to = from + picksIn(course, block);
    const inner =
      block.kind === 'repeat' || block.kind === 'mirror'
        ? foundIn(course, block.of, from, depth + 1)
        : [];
    const found: FoundBlock = { block, depth, from, to };
    from = to;
    return [found, ...inner];
  });
}

function picksIn({ plan }: Course, block: Block): number {
  const [piece] = plan.pieces;
  if (piece === undefined) return 0;
  const alone = { ...plan, pieces: [{ ...piece, weft: [block] }] };
  return layWeft(alone, 0).reduce((sum, laid) => sum + picksOf(laid), 0);
}

/** Distance from pick to pick a yarn of the warp has now, as believed. */
export function spacingNow({ plan, belief }: Course): (letter: Letter) => Mm {
  return (letter) => {
    const yarn = plan.yarns.findIndex((it) => it.letter === letter);
    const planned = plan.yarns[yarn]?.pickSpacing ?? plan.weaving.pickSpacing;
    return planned * (belief.yarns[yarn] ?? 1) * belief.slope;
  };
}
