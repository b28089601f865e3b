/** A motif woven once more, from the fell on: the plan changed so that it comes next. */
import { type LaidBlock, plannedLengthOf, turnOf, withPicks } from '../../plan/blocks.ts';
import { checkPlan } from '../../plan/checkPlan.ts';
import { stillFree } from '../../plan/freeBlock.ts';
import type { Motif } from '../../plan/motif.ts';
import type { Block, Edge, Letter, Plan } from '../../plan/plan.ts';
import type { Course, CourseBlock } from '../course.ts';
import type { Revision } from '../endings/ending.ts';
import { asItStands } from '../endings/later.ts';
import { planWith } from '../endings/revision.ts';
import { letterOf } from '../endings/woven/asBlocks.ts';
import { edgesOf } from '../endings/woven/asWoven.ts';
import { type PieceParts, partsOf } from '../endings/woven/parts.ts';
import { weftOf, withinLimit } from '../endings/woven/regroup.ts';
import { pieceAt } from '../pickAt.ts';
import { revisedCourse } from '../revise.ts';
import { thrownOnly } from './record.ts';

/** What becomes of the weft that was still to come in the piece. */
export type Rest = 'kept' | 'replaced';

/**
 * What the event `revised` says to weave blocks next: what is woven stays as it was woven, then come
 * the blocks, then what was to come, unless they replace it; a part woven by eye goes on after them.
 * Null where they cannot come next: in a hem, or where the plan would grow beyond what it may hold.
 */
export function weaveAgain(
  course: Course,
  pick: number,
  blocks: readonly Block[],
  rest: Rest = 'kept',
): Revision | null {
  const piece = pieceAt(course, pick);
  const planned = course.plan.pieces[piece.index];
  if (planned === undefined || piece.picks === 0) return null;
  const parts = partsOf(course, piece.index);
  const weftStart = piece.firstPick + (parts.beginning?.picks ?? 0);
  const weftEnd = piece.firstPick + piece.picks - (parts.ending?.picks ?? 0);
  if (pick < weftStart || pick > weftEnd) return null;
  const weft = parts.weft.flatMap((block) => around(course, block, pick));
  const { beginning, ending } = edgesWith(course, piece.index, parts);
  const again = {
    ...planned,
    beginning: beginning.edge,
    ending: ending.edge,
    weft: withinLimit([
      ...beginning.spare,
      ...blocksBefore(course.plan, weft),
      ...blocks,
      ...(rest === 'kept' ? blocksAfter(course.plan, weft) : []),
      ...ending.spare,
    ]),
  };
  const later = course.pieces.slice(piece.index + 1).map((it) => asItStands(course, it.index));
  const revision = { from: piece.index, pieces: [again, ...later] };
  const isSound = checkPlan(planWith(course.plan, revision)).ok;
  return isSound && revisedCourse(course, pick, revision.from, revision.pieces) ? revision : null;
}

/** A block of the weft in what lies before the fell and what lies after it. */
interface Around {
  readonly before: readonly LaidBlock[];
  readonly after: readonly LaidBlock[];
  /** What is still to be woven by eye. */
  readonly still: Block | null;
}

function around(course: Course, block: CourseBlock, pick: number): readonly Around[] {
  const laid = course.blocks[block.index]?.laid ?? block.laid;
  const woven = Math.max(0, Math.min(block.picks, pick - block.firstPick));
  if (laid.block?.kind === 'free' && laid.isOpen) {
    const still = stillFree(laid.block, plannedLengthOf(thrownOnly(laid)));
    return [{ before: [thrownOnly(laid)], after: [], still }];
  }
  if (woven === block.picks) return [{ before: [laid], after: [], still: null }];
  if (woven === 0) return [{ before: [], after: [laid], still: null }];
  return [{ before: [withPicks(laid, woven)], after: restOf(laid, woven), still: null }];
}

/** What is left of a laid block after so many of its picks: the rest of a turn begun, and whole turns. */
function restOf(laid: LaidBlock, woven: number): readonly LaidBlock[] {
  let left = woven;
  let turn = 0;
  for (; turn < laid.turns && left >= turnOf(laid, turn).picks; turn++) {
    left -= turnOf(laid, turn).picks;
  }
  if (left === 0) return [fromTurn(laid, turn)];
  const begun = turnOf(laid, turn);
  const period = { yarns: [begun.yarn], picks: [begun.picks - left] };
  const first = { ...laid, period, firstTurn: 0, turns: 1, lastTurnPicks: null };
  return turn + 1 < laid.turns ? [first, fromTurn(laid, turn + 1)] : [first];
}

function fromTurn(laid: LaidBlock, turn: number): LaidBlock {
  const firstTurn = (laid.firstTurn + turn) % laid.period.yarns.length;
  return { ...laid, firstTurn, turns: laid.turns - turn };
}

function blocksBefore(plan: Plan, weft: readonly Around[]): readonly Block[] {
  return weftOf(
    plan,
    weft.flatMap((it) => it.before),
  );
}

function blocksAfter(plan: Plan, weft: readonly Around[]): readonly Block[] {
  return weft.flatMap((it) => [
    ...(it.still === null ? [] : [it.still]),
    ...weftOf(plan, it.after),
  ]);
}

/** The hems as they are laid, in their own yarn whatever they will lie beside. */
function edgesWith(course: Course, piece: number, { beginning, weft, ending }: PieceParts) {
  const it = course.plan.pieces[piece];
  if (it === undefined) throw new Error(`edgesWith: wanted a piece of the plan, got ${piece}`);
  const laid = {
    beginning: beginning?.laid ?? null,
    weft: weft.map((block) => block.laid),
    ending: ending?.laid ?? null,
  };
  const edges = edgesOf(course.plan, it, laid);
  const named = (edge: Edge, hem: LaidBlock | null): Edge => {
    const yarn = hem?.period.yarns[0];
    if (edge.kind === 'hemstitch' || yarn === undefined) return edge;
    return { ...edge, yarn: edge.yarn ?? letterOf(course.plan, yarn) };
  };
  return {
    beginning: { ...edges.beginning, edge: named(edges.beginning.edge, laid.beginning) },
    ending: { ...edges.ending, edge: named(edges.ending.edge, laid.ending) },
  };
}

/**
 * The yarn of a warp each yarn of a motif most likely is: the same of the shelf, else of the same
 * colour, else under the same letter; null where the weaver must say.
 */
export function yarnsFor(motif: Motif, plan: Plan): ReadonlyMap<Letter, Letter | null> {
  return new Map(
    motif.yarns.map((yarn) => {
      const found =
        plan.yarns.find((it) => yarn.shelf !== undefined && it.shelf === yarn.shelf) ??
        plan.yarns.find((it) => it.colour.toLowerCase() === yarn.colour.toLowerCase()) ??
        plan.yarns.find((it) => it.letter === yarn.letter);
      return [yarn.letter, found?.letter ?? null];
    }),
  );
}
