/** The hem a piece ends with: as it is woven once it is begun, else as its edge asks for. */
import { type LaidBlock, picksOf } from '../../plan/blocks.ts';
import { yarnIndex } from '../../plan/blockTurns.ts';
import type { Course } from '../course.ts';
import type { Reckoning } from './reckoning.ts';
import { type Turn, turnIn } from './strand.ts';
import { isSetByHand, partsOf } from './woven/parts.ts';

export interface Hem {
  readonly turn: Turn;
  /** Set where it must stay as it is; a hem still to come is laid by its edge. */
  readonly laid: LaidBlock | null;
}

const NO_HEM: Hem = { turn: { yarn: 0, picks: 0, spacing: 0 }, laid: null };

/** The ending hem of a piece whose picks are partly in the cloth: its weft cannot go on. */
export function hemBegun({ course, pick }: Reckoning, piece: number): Hem | null {
  const { ending } = partsOf(course, piece);
  if (ending === null || ending.firstPick >= pick) return null;
  const { laid } = ending;
  // A hem is one block of one yarn.
  return laid.turns === 0 ? { ...NO_HEM, laid } : { turn: turnIn(laid, 0), laid };
}

/** The ending hem of a piece after a last turn of this yarn index: of as many picks as a hand gave it, if one did. */
export function hemToCome(reckoning: Reckoning, piece: number, neighbour: number): Hem {
  const { course, plan, hemSpacings } = reckoning;
  const edge = plan.pieces[piece]?.ending;
  if (edge === undefined || edge.kind === 'hemstitch') return NO_HEM;
  const yarn = edge.yarn === undefined ? neighbour : yarnIndex(plan, edge.yarn);
  const spacing = hemSpacings[yarn] ?? 0;
  const set = hemByHand(course, piece);
  if (set === null) {
    const picks = reckoning.context.hemPicks(edge, neighbour);
    return { turn: { yarn, picks, spacing }, laid: null };
  }
  const picks = picksOf(set);
  const period = { yarns: [yarn], picks: [picks] };
  return {
    turn: { yarn, picks, spacing },
    laid: { ...set, period, turns: 1, lastTurnPicks: null },
  };
}

function hemByHand(course: Course, piece: number): LaidBlock | null {
  const { ending } = partsOf(course, piece);
  const isSet = ending !== null && isSetByHand(course, piece, ending.ofPiece);
  return isSet ? ending.laid : null;
}
