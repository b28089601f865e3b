/**
 * Stripes: runs of picks of one yarn as the eye sees them, with all that follows a shuttle: the side
 * it starts from, how the yarn came, where it rests, and whether the edge end is caught (design §4).
 */
import type { Plan, Resting, Side } from '../plan/plan.ts';
import type { Adjustments } from './adjustments.ts';
import type { CourseBlock, CoursePiece, Turns } from './course.ts';
import { likesOf, settleLike } from './likePieces.ts';
import { type Marked, type Milestones, setMilestones } from './milestones.ts';
import { holdsPick, openPlace, restBetween, restsAtOpen } from './rests.ts';

export const LEFT = 0;
export const RIGHT = 1;

/** How a yarn comes into a stripe. */
export const ENTRIES = ['new', 'floated', 'caught'] as const;
export type Entry = (typeof ENTRIES)[number];
const NEW = ENTRIES.indexOf('new');
const FLOATED = ENTRIES.indexOf('floated');
const CAUGHT = ENTRIES.indexOf('caught');

/** What becomes of a yarn after a stripe. */
export const REST_KINDS = ['ends', 'float', 'catch', 'cut'] as const;
export type RestKind = (typeof REST_KINDS)[number];
const FLOAT = REST_KINDS.indexOf('float');
const CATCH = REST_KINDS.indexOf('catch');
const CUT = REST_KINDS.indexOf('cut');

/** The edge end where a yarn re-enters; a yarn started anew has none to catch. */
export const EDGES = ['none', 'caught', 'not-caught'] as const;
export type EdgeEnd = (typeof EDGES)[number];
const EDGE_CAUGHT = EDGES.indexOf('caught');
const EDGE_NOT_CAUGHT = EDGES.indexOf('not-caught');

/** One entry a stripe, in weaving order; `firstPick` has one entry more, the end. Codes index the lists above. */
export interface Stripes extends Marked, Milestones {
  readonly firstTurn: Int32Array;
  /** Side the first pick is thrown from: 0 left, 1 right. */
  readonly fromSide: Uint8Array;
  /** Side the shuttle lies on after the last pick. */
  readonly restSide: Uint8Array;
  readonly entry: Uint8Array;
  readonly rest: Uint8Array;
  readonly catchEvery: Int32Array;
  readonly edge: Uint8Array;
  /** Stripe of the same yarn before and after in the piece, −1 where there is none. */
  readonly previous: Int32Array;
  readonly next: Int32Array;
  /** Sides found in the middle of a stripe. */
  readonly midFlips: readonly { readonly stripe: number; readonly pick: number }[];
}

const NO_STRIPES = { firstStripe: 0, stripes: 0 } as const;
/** Stripes while they are laid, before the marks are set along them. */
type Laid = Omit<Stripes, keyof Milestones>;
type Writable = { -readonly [K in keyof Laid]: Laid[K] };

/** The stripes of all pieces, each piece in weaving order, for a stripe follows from those before it. */
export function layStripes(
  plan: Plan,
  pieces: readonly CoursePiece[],
  blocks: readonly CourseBlock[],
  turns: Turns,
  adjustments: Adjustments,
): Stripes {
  const stripes = mergeTurns(pieces, blocks, turns);
  const midFlips: { stripe: number; pick: number }[] = [];
  const work: Work = { plan, blocks, turns, stripes, adjustments, midFlips };
  const likes = likesOf(work, pieces);
  for (const piece of pieces) {
    const like = likes[piece.index];
    if (like === undefined) settlePiece(work, piece);
    else settleLike(stripes, like, piece);
  }
  return { ...stripes, midFlips, ...setMilestones(stripes, plan.yarns.length) };
}

interface Work {
  readonly plan: Plan;
  readonly blocks: readonly CourseBlock[];
  readonly turns: Turns;
  readonly stripes: Writable;
  readonly adjustments: Adjustments;
  readonly midFlips: { stripe: number; pick: number }[];
}

/** Neighbouring turns of one yarn are one stripe, but never across a gap. */
function mergeTurns(
  pieces: readonly CoursePiece[],
  blocks: readonly CourseBlock[],
  turns: Turns,
): Writable {
  const stripes = emptyStripes(turns.count);
  const ofPieces: { firstStripe: number; stripes: number }[] = [];
  let count = 0;
  for (const piece of pieces) {
    const firstStripe = count;
    const firstTurn = blocks[piece.firstBlock]?.firstTurn ?? turns.count;
    const endTurn = blocks[piece.firstBlock + piece.blocks]?.firstTurn ?? turns.count;
    let yarn = -1;
    for (let turn = firstTurn; turn < endTurn; turn++) {
      if (turns.yarn[turn] === yarn) continue;
      if (turns.firstPick[turn] === turns.firstPick[turn + 1]) continue;
      yarn = turns.yarn[turn] ?? 0;
      stripes.firstPick[count] = turns.firstPick[turn] ?? 0;
      stripes.yarn[count] = yarn;
      stripes.firstTurn[count] = turn;
      count++;
    }
    ofPieces.push({ firstStripe, stripes: count - firstStripe });
  }
  stripes.firstPick[count] = turns.firstPick[turns.count] ?? 0;
  stripes.firstTurn[count] = turns.count;
  return { ...stripes, count, ofPieces };
}

function settlePiece(work: Work, piece: CoursePiece): void {
  const { stripes } = work;
  const { firstStripe, stripes: count } = stripes.ofPieces[piece.index] ?? NO_STRIPES;
  const lastOf = new Int32Array(work.plan.yarns.length).fill(-1);
  const open = openPlace(work, piece);
  let lastAtOpen = lastOf;
  for (let r = firstStripe; r < firstStripe + count; r++) {
    const yarn = stripes.yarn[r] ?? 0;
    const before = lastOf[yarn] ?? -1;
    stripes.previous[r] = before;
    stripes.next[r] = -1;
    if (before >= 0) stripes.next[before] = r;
    if (before >= 0) markRest(stripes, before, restBetween(work, before, r));
    const comes = before < 0 ? NEW : entryAfter(stripes.rest[before] ?? CUT);
    stripes.entry[r] = comes;
    stripes.fromSide[r] =
      comes === NEW
        ? startingSide(work, piece, r, firstStripe)
        : (stripes.restSide[before] ?? LEFT);
    settleSide(work, r);
    moveResting(work, piece, r, lastOf);
    lastOf[yarn] = r;
    if (open !== null && holdsPick(stripes, r, open.pick)) lastAtOpen = lastOf.slice();
  }
  settleEdges(stripes, piece, work.adjustments);
  if (open === null) return;
  for (const [r, rest] of restsAtOpen(work, open, lastAtOpen)) markRest(stripes, r, rest);
}

/** How a yarn comes back from such a rest. */
function entryAfter(rest: number): number {
  if (rest === CUT) return NEW;
  return rest === FLOAT ? FLOATED : CAUGHT;
}

function markRest(stripes: Writable, before: number, rest: Resting): void {
  stripes.rest[before] = rest.mode === 'float' ? FLOAT : rest.mode === 'cut' ? CUT : CATCH;
  stripes.catchEvery[before] = rest.mode === 'catch' ? rest.every : 0;
}

/** A yarn starts on the side chosen for it, else on the side of the yarns it alternates with. */
function startingSide(work: Work, piece: CoursePiece, r: number, firstStripe: number): number {
  const { stripes, plan, adjustments } = work;
  const yarn = stripes.yarn[r] ?? 0;
  const found = adjustments.sides.findLast(
    (it) =>
      it.yarn === yarn &&
      it.pick <= (stripes.firstPick[r] ?? 0) &&
      it.pick >= piece.firstPick &&
      // Found while it was still at work says nothing about where it starts anew.
      it.pick >= (stripes.firstPick[(stripes.previous[r] ?? -1) + 1] ?? 0),
  );
  if (found !== undefined) return sideCode(found.side);
  const letter = plan.yarns[yarn]?.letter ?? '';
  const block = work.blocks[work.turns.block[stripes.firstTurn[r] ?? 0] ?? -1];
  const chosen = block?.laid.block?.starts?.[letter];
  if (r === firstStripe) {
    const pinned = plan.pieces[piece.index]?.beginning.kind === 'hemstitch' ? undefined : chosen;
    return sideCode(pinned ?? piece.startSide);
  }
  return chosen === undefined ? (stripes.restSide[r - 1] ?? LEFT) : sideCode(chosen);
}

/** A side told by the weaver inside the stripe turns the rest of it round. */
function settleSide(work: Work, r: number): void {
  const { stripes, adjustments, midFlips } = work;
  const start = stripes.firstPick[r] ?? 0;
  const end = stripes.firstPick[r + 1] ?? start;
  let parity = (end - start) & 1;
  let flips = 0;
  for (const found of adjustments.sides) {
    if (found.yarn !== stripes.yarn[r] || found.pick <= start || found.pick >= end) continue;
    const natural = (stripes.fromSide[r] ?? 0) ^ ((found.pick - start) & 1) ^ flips;
    if (natural === sideCode(found.side)) continue;
    flips ^= 1;
    midFlips.push({ stripe: r, pick: found.pick });
  }
  parity ^= flips;
  stripes.restSide[r] = (stripes.fromSide[r] ?? 0) ^ parity;
}

/** A resting shuttle found on another side while this stripe is woven lies there from then on. */
function moveResting(work: Work, piece: CoursePiece, r: number, lastOf: Int32Array): void {
  const { stripes, adjustments } = work;
  if (adjustments.sides.length === 0) return;
  const start = stripes.firstPick[r] ?? 0;
  const end = stripes.firstPick[r + 1] ?? start;
  for (const found of adjustments.sides) {
    if (found.pick < start || found.pick > end || found.pick < piece.firstPick) continue;
    if (found.yarn === stripes.yarn[r]) {
      if (found.pick === end) stripes.restSide[r] = sideCode(found.side);
      continue;
    }
    const resting = lastOf[found.yarn] ?? -1;
    if (resting >= 0) stripes.restSide[resting] = sideCode(found.side);
  }
}

/** The edge ends of some pieces anew, for other sheds: nothing else of the stripes follows from sheds. */
export function withSheds(
  stripes: Stripes,
  pieces: readonly CoursePiece[],
  adjustments: Adjustments,
): Stripes {
  const other = { ...stripes, edge: stripes.edge.slice() };
  for (const piece of pieces) settleEdges(other, piece, adjustments);
  return other;
}

function settleEdges(stripes: Laid, piece: CoursePiece, adjustments: Adjustments): void {
  const sheds = shedsOf(piece, adjustments);
  const { firstStripe, stripes: count } = stripes.ofPieces[piece.index] ?? NO_STRIPES;
  for (let r = firstStripe; r < firstStripe + count; r++) {
    if (stripes.entry[r] === NEW) continue;
    stripes.edge[r] = edgeEnd(stripes, stripes.previous[r] ?? 0, r, sheds);
  }
}

/**
 * A yarn that comes back where it left passes round the edge end only if that end has changed sheds
 * in between (design §4): after an even number of picks of others, as long as sheds alternate.
 */
function edgeEnd(
  stripes: Laid,
  before: number,
  after: number,
  sheds: (pick: number) => number,
): number {
  const left = (stripes.firstPick[before + 1] ?? 0) - 1;
  const back = stripes.firstPick[after] ?? 0;
  return sheds(left) === sheds(back) ? EDGE_NOT_CAUGHT : EDGE_CAUGHT;
}

/** Shed of a pick of one piece: alternating from its start shed, turned round by each "other shed". */
export function shedsOf(piece: CoursePiece, adjustments: Adjustments): (pick: number) => number {
  const first = piece.firstPick;
  const last = first + piece.picks;
  const flips = adjustments.shedFlips.filter((at) => at >= first && at < last);
  return (pick) => shedAfter(piece, flips, pick);
}

/** Shed of a pick of one piece: every flip from its first pick up to this one turns it round. */
export function shedAfter(
  { firstPick, startShed }: CoursePiece,
  flips: readonly number[],
  pick: number,
): number {
  let shed = startShed + pick - firstPick;
  for (const at of flips) if (at >= firstPick && at <= pick) shed++;
  return shed & 1;
}

/** A side as `Stripes` has it: 0 left, 1 right, so that the parity of the picks thrown turns it round. */
export function sideCode(side: Side): number {
  return side === 'left' ? LEFT : RIGHT;
}

/** The side such a code stands for. */
export function sideOf(code: number): Side {
  return code === LEFT ? 'left' : 'right';
}

function emptyStripes(most: number): Writable {
  return {
    count: 0,
    firstPick: new Int32Array(most + 1),
    yarn: new Uint8Array(most),
    firstTurn: new Int32Array(most + 1),
    fromSide: new Uint8Array(most),
    restSide: new Uint8Array(most),
    entry: new Uint8Array(most),
    rest: new Uint8Array(most),
    catchEvery: new Int32Array(most),
    edge: new Uint8Array(most),
    previous: new Int32Array(most),
    next: new Int32Array(most),
    ofPieces: [],
    midFlips: [],
  };
}
