/** A plan that weaves pieces once more as they were woven, at the beat they were woven with. */
import { thrownOnly } from '../../bench/byEye/record.ts';
import type { Course } from '../../bench/course.ts';
import { lengthOfPiece } from '../../bench/tape.ts';
import { plannedLengthOf, withPicks } from '../../plan/blocks.ts';
import type { Block, Edge, Piece, Plan } from '../../plan/plan.ts';
import { asWoven } from './asWoven.ts';

/**
 * The plan of the warp with these pieces alone, each with the picks it has in the cloth (the fell
 * lying before `pick`), and as long as they are believed to be: one factor for all spacings. Pieces
 * of which nothing is woven are left out; null where none is left.
 */
export function planAsWoven(course: Course, pieces: readonly number[], pick: number): Plan | null {
  const woven = pieces.flatMap((piece) => asWoven(course, piece, pick) ?? []);
  if (woven.length === 0) return null;
  const lengths = pieces.map((piece) => lengthsOf(course, piece, pick));
  const planned = lengths.reduce((sum, it) => sum + it.planned, 0);
  const real = lengths.reduce((sum, it) => sum + it.real, 0);
  const factor = planned > 0 && real > 0 ? real / planned : 1;
  return atBeatOf({ ...course.plan, pieces: woven }, Math.abs(factor - 1) < 1e-9 ? 1 : factor);
}

/** Loom length of what is woven of a piece, at the planned beat and as believed. */
function lengthsOf(course: Course, piece: number, pick: number) {
  const it = course.pieces[piece];
  if (it === undefined) return { planned: 0, real: 0 };
  const blocks = course.blocks.slice(it.firstBlock, it.firstBlock + it.blocks);
  const planned = blocks.reduce((sum, { laid, firstPick, picks }) => {
    const far = Math.max(0, Math.min(picks, pick - firstPick));
    return sum + plannedLengthOf(far === picks ? laid : withPicks(thrownOnly(laid), far));
  }, 0);
  const end = Math.min(pick, it.firstPick + it.picks);
  return { planned, real: end > it.firstPick ? lengthOfPiece(course, it, end) : 0 };
}

/** The same picks at every distance from pick to pick times a factor, lengths with them. */
function atBeatOf(plan: Plan, factor: number): Plan {
  if (factor === 1) return plan;
  const weaving = { ...plan.weaving, pickSpacing: plan.weaving.pickSpacing * factor };
  const yarns = plan.yarns.map((yarn) => spaced(yarn, factor));
  return { ...plan, weaving, yarns, pieces: plan.pieces.map((it) => pieceAt(it, factor)) };
}

function spaced<T extends { readonly pickSpacing?: number }>(it: T, factor: number): T {
  return it.pickSpacing === undefined ? it : { ...it, pickSpacing: it.pickSpacing * factor };
}

function pieceAt(piece: Piece, factor: number): Piece {
  const edge = (it: Edge): Edge =>
    it.kind === 'hemstitch' ? it : { ...it, washedAllowance: it.washedAllowance * factor };
  const weft = piece.weft.map((block) => blockAt(block, factor));
  return { ...piece, beginning: edge(piece.beginning), ending: edge(piece.ending), weft };
}

function blockAt(block: Block, factor: number): Block {
  switch (block.kind) {
    case 'repeat':
    case 'mirror':
      return { ...block, of: block.of.map((it) => blockAt(it, factor)) };
    case 'free': {
      const { loomLength } = block;
      const free = spaced(block, factor);
      return loomLength === undefined ? free : { ...free, loomLength: loomLength * factor };
    }
    case 'solid':
    case 'alternation': {
      const { extent } = block;
      const it = spaced(block, factor);
      if (extent.kind !== 'length') return it;
      return { ...it, extent: { ...extent, loomLength: extent.loomLength * factor } } as typeof it;
    }
  }
}
