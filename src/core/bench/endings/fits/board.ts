/** What all fits are tried on: each piece from the present one on, as far as it can still be another. */
import type { Mm } from '../../../measure/length.ts';
import type { Piece } from '../../../plan/plan.ts';
import { thrownOnly } from '../../byEye/record.ts';
import { type Hem, hemBegun, hemToCome } from '../hems.ts';
import { pieceStrand } from '../later.ts';
import type { Reckoning } from '../reckoning.ts';
import { copyOf, newStrand, type Strand, weave, weaveBlock } from '../strand.ts';
import { lastYarn, type PieceParts, partsOf, unseenFrom } from '../woven/parts.ts';
import { addLoom, type Item, isToCome, itemsOf } from './items.ts';

export interface Board {
  readonly reckoning: Reckoning;
  /** The present piece first. */
  readonly pieces: readonly BoardPiece[];
}

export interface BoardPiece {
  readonly index: number;
  readonly piece: Piece;
  readonly parts: PieceParts;
  readonly items: readonly Item[];
  /** The ending hem where it is begun: then the weft is as it is. */
  readonly begun: Hem | null;
  /** Whether some of it is to be woven by eye: then nobody knows what it comes to. */
  readonly isUnseen: boolean;
  /** The piece as now laid, to its end. */
  readonly strand: Strand;
  /** The beginning hem and the blocks that are woven, and how many blocks those are. */
  readonly woven: Strand;
  readonly wovenItems: number;
  /** Planned millimetres in the cloth, by yarn index. */
  readonly wovenLoom: readonly Mm[];
}

/** The board of the present piece and all after it, made once for all trials. */
export function boardOf(reckoning: Reckoning): Board {
  const { course, present } = reckoning;
  const pieces = course.pieces
    .slice(present.index)
    .flatMap((it) => boardPiece(reckoning, it.index) ?? []);
  return { reckoning, pieces };
}

function boardPiece(reckoning: Reckoning, index: number): BoardPiece | null {
  const { course, plan, pick } = reckoning;
  const piece = plan.pieces[index];
  if (piece === undefined) return null;
  const parts = partsOf(course, index);
  const items = itemsOf(course, index, pick);
  const strand = pieceStrand(reckoning, index);
  const woven = newStrand(reckoning, index);
  if (parts.beginning !== null) weaveBlock(reckoning, woven, parts.beginning.laid);
  const toCome = items.findIndex(isToCome);
  const wovenItems = toCome < 0 ? items.length : toCome;
  for (const { laid } of items.slice(0, wovenItems)) weaveBlock(reckoning, woven, laid);
  const all = plan.yarns.map(() => 0);
  const { firstBlock = 0, blocks = 0 } = course.pieces[index] ?? {};
  for (const block of course.blocks.slice(firstBlock, firstBlock + blocks))
    addLoom(all, thrownOnly(block.laid), 1);
  return {
    index,
    piece,
    parts,
    items,
    begun: hemBegun(reckoning, index),
    isUnseen: unseenFrom(course, parts) !== null,
    strand,
    woven,
    wovenItems,
    wovenLoom: all.map((mm, yarn) => mm - (strand.ahead[yarn] ?? 0)),
  };
}

/** The ending hem after a weft. */
export function hemAfter({ reckoning }: Board, it: BoardPiece, items: readonly Item[]): Hem {
  const last = lastYarn(items.map(({ laid }) => laid));
  return it.begun ?? hemToCome(reckoning, it.index, last ?? 0);
}

/** Planned millimetres still to weave of a piece with another weft, by yarn index. */
export function loomAhead(board: Board, it: BoardPiece, items: readonly Item[]): Mm[] {
  const sums = it.wovenLoom.map((mm) => -mm);
  if (it.parts.beginning !== null) addLoom(sums, it.parts.beginning.laid, 1);
  for (const { laid } of items) addLoom(sums, laid, 1);
  const { yarn, picks, spacing } = hemAfter(board, it, items).turn;
  sums[yarn] = (sums[yarn] ?? 0) + picks * spacing;
  return sums;
}

/** A piece with another weft followed to its end. */
export function strandWith(board: Board, it: BoardPiece, items: readonly Item[]): Strand {
  const strand = copyOf(it.woven);
  for (const { laid } of items.slice(it.wovenItems)) weaveBlock(board.reckoning, strand, laid);
  weave(board.reckoning, strand, hemAfter(board, it, items).turn);
  return strand;
}
