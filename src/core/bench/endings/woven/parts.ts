/** A piece of the course in its parts: the hem it begins with, its weft, the hem it ends with. */
import { type LaidBlock, turnOf } from '../../../plan/blocks.ts';
import { thrownOnly } from '../../byEye/record.ts';
import type { Course, CourseBlock } from '../../course.ts';

export interface PieceParts {
  readonly beginning: CourseBlock | null;
  /** Of a part woven by eye what was thrown. */
  readonly weft: readonly CourseBlock[];
  readonly ending: CourseBlock | null;
}

/**
 * A piece as the course has it now, its hems told by where in the plan they come from. Throws where there is
 * no such piece.
 */
export function partsOf(course: Course, piece: number): PieceParts {
  const it = course.pieces[piece];
  if (it === undefined) throw new Error(`partsOf: wanted a piece of the course, got ${piece}`);
  const blocks = course.blocks.slice(it.firstBlock, it.firstBlock + it.blocks);
  const isEdge = (block: CourseBlock | undefined, edge: string) =>
    block !== undefined && block.laid.source === `pieces[${piece}].${edge}`;
  const [first, last] = [blocks[0], blocks[blocks.length - 1]];
  const beginning = first !== undefined && isEdge(first, 'beginning') ? first : null;
  const ending = last !== undefined && isEdge(last, 'ending') ? last : null;
  const weft = blocks
    .slice(beginning === null ? 0 : 1, blocks.length - (ending === null ? 0 : 1))
    .map((block) => ({ ...block, laid: inWholeTurns(thrownOnly(block.laid)) }));
  return { beginning, weft, ending };
}

/** The same block; that its last turn is a whole one needs no saying. */
function inWholeTurns(laid: LaidBlock): LaidBlock {
  if (laid.lastTurnPicks === null || laid.turns === 0) return laid;
  const open = { ...laid, lastTurnPicks: null };
  return turnOf(open, laid.turns - 1).picks === laid.lastTurnPicks ? open : laid;
}

/** Index in the weft of the first part woven by eye of which nothing is thrown: of it and of all after it nobody knows. */
export function unseenFrom(course: Course, { weft }: PieceParts): number | null {
  const at = weft.findIndex(
    ({ index, laid }) => laid.turns === 0 && course.blocks[index]?.laid.isOpen === true,
  );
  return at < 0 ? null : at;
}

/** Yarn index of the first pick of some laid blocks; null where they have none. */
export function firstYarn(laid: readonly LaidBlock[]): number | null {
  const block = laid.find((it) => it.turns > 0);
  return block === undefined ? null : (block.period.yarns[block.firstTurn] ?? 0);
}

/** Yarn index of the last pick of some laid blocks; null where they have none. */
export function lastYarn(laid: readonly LaidBlock[]): number | null {
  const block = laid.findLast((it) => it.turns > 0);
  if (block === undefined) return null;
  const { yarns } = block.period;
  return yarns[(block.firstTurn + block.turns - 1) % yarns.length] ?? 0;
}

/** Whether a hand gave a block of a piece, or any of it, its picks: not a reading that made the beat known better. */
export function isSetByHand(course: Course, piece: number, block?: number): boolean {
  const words = course.adjustments.blocks.filter(
    (it) => it.piece === piece && (block === undefined || it.block === block),
  );
  if (block === undefined) return words.some((it) => it.aimed === undefined);
  const last = words[words.length - 1];
  return last !== undefined && last.aimed === undefined;
}
