/**
 * Warp left (design §4): length tied on − wastes − what pieces and gaps have taken, as loom length
 * still weavable, and whether it lasts to the end of the plan.
 *
 * With T tied on less wastes and gaps, t the share of warp taken and w woven, T/(1 + t) − w is left.
 * Its variance is the sum of theirs, each by its own slope; t is one for the whole warp.
 */
import { loomLengthFromWarp, warpFor } from '../../measure/clothState.ts';
import type { Mm } from '../../measure/length.ts';
import { fringeOnLoom, sharesOf } from '../../plan/geometry.ts';
import type { Edge, Plan } from '../../plan/plan.ts';
import { type WarpLength, warpLengthFor } from '../../plan/warpLength.ts';
import type { Course } from '../course.ts';
import { lengthOfPiece } from '../tape.ts';
import { believedLength, noLessThanNought } from './believed.ts';
import type { BelievedLength, WarpContext, WarpLeft } from './left.ts';
import { reachOf } from './reach.ts';
import { WASTES_SPREAD, warpTakenSpread } from './spreads.ts';

/** What is left of the warp before `pick` is thrown, what the plan still wants of it, and whether that will do. */
export function warpLeft(course: Course, pick: number, context: WarpContext): WarpLeft {
  const account = warpAccount(course, pick, context);
  const left = account.spare({ loomLength: 0, gaps: 0, fringe: 0 });
  const whole = account.wanted(course.picks);
  return {
    left: noLessThanNought(left),
    wanted: account.asLoomLength(whole),
    spare: account.spare(whole),
    reach: reachOf({ pick, picks: course.picks }, (to) => account.spare(account.wanted(to))),
    parts: account.parts,
  };
}

/** What is asked of the warp from the fell on. */
export interface WarpWant {
  /** Still to be woven. */
  readonly loomLength: Mm;
  /** Still to be left between pieces. */
  readonly gaps: Mm;
  /** To be left after the last of it. */
  readonly fringe: Mm;
}

export interface WarpAccount {
  readonly parts: WarpLeft['parts'];
  /** What the course wants from here to before a pick, with the fringe of the piece it lies in. */
  readonly wanted: (to: number) => WarpWant;
  readonly asLoomLength: (want: WarpWant) => BelievedLength;
  /** Loom length left over by what is wanted; below nought: short by so much. */
  readonly spare: (want: WarpWant) => BelievedLength;
  /** Warp to leave after a piece that is the last on the warp, besides the back waste. */
  readonly fringeAfter: (ending: Edge) => Mm;
}

/** The warp's account at a pick: what it has to give, and the answers to what may be asked of it. */
export function warpAccount(course: Course, pick: number, context: WarpContext): WarpAccount {
  const { plan } = course;
  const lengths = warpLengthFor(plan, []);
  const woven = sumOf(context.woven);
  const here = reachedBy(course, pick);
  const parts = partsOf(plan, lengths, { woven: woven.mm, gaps: here.gaps }, context.tiedOn.mm);
  const ends = Math.hypot(context.tiedOn.sd, WASTES_SPREAD);
  const shares = sharesOf(plan);
  const taken = 1 + shares.warpTaken;
  const takenSpread = warpTakenSpread(plan.allowances.warpTaken) / taken;
  const fringeAfter = (ending: Edge) => lastFringe(plan, lengths, ending);
  const toCome = reachedBy(course, course.picks).loomLength - here.loomLength;
  const ahead = seldomAsked(context.ahead, toCome);
  return {
    parts,
    fringeAfter,
    wanted: (to) => {
      const there = reachedBy(course, to);
      const ending = plan.pieces[there.piece]?.ending;
      return {
        loomLength: there.loomLength - here.loomLength,
        gaps: there.gaps - here.gaps,
        fringe: ending === undefined ? 0 : fringeAfter(ending),
      };
    },
    asLoomLength: ({ loomLength, gaps, fringe }) => {
      const unwoven = loomLengthFromWarp(gaps + fringe, shares);
      const spread = Math.hypot(ahead(loomLength), unwoven * takenSpread);
      return believedLength(loomLength + unwoven, spread);
    },
    spare: ({ loomLength, gaps, fringe }) => {
      const weavable = loomLengthFromWarp(parts.left + parts.woven - gaps - fringe, shares);
      const cloth = Math.hypot(woven.sd, ahead(loomLength));
      const spread = Math.hypot(weavable * takenSpread, ends / taken, cloth);
      return believedLength(weavable - woven.mm - loomLength, spread);
    },
  };
}

/** Stretches of what is still to come whose ends are asked for. */
const STRETCHES = 8;

/**
 * The spread of a length to come, which the beat is long to answer and the search for a pick asks
 * often: asked at the ends of a few stretches, straight between them. It bends upward, so what is
 * told is never too little.
 */
function seldomAsked(ask: (loomLength: Mm) => Mm, most: Mm): (loomLength: Mm) => Mm {
  const known = new Map<number, Mm>();
  const atEnd = (k: number): Mm => {
    const spread = known.get(k) ?? ask((k * most) / STRETCHES);
    known.set(k, spread);
    return spread;
  };
  return (loomLength) => {
    const place = (STRETCHES * loomLength) / most;
    if (!(place >= 0 && place <= STRETCHES)) return ask(loomLength);
    const k = Math.floor(place);
    return k === place ? atEnd(k) : atEnd(k) + (place - k) * (atEnd(k + 1) - atEnd(k));
  };
}

/** The readings of one piece say nothing of another's: their errors add up as squares. */
function sumOf(woven: readonly BelievedLength[]): { readonly mm: Mm; readonly sd: Mm } {
  return {
    mm: woven.reduce((sum, it) => sum + it.mm, 0),
    sd: Math.hypot(...woven.map((it) => it.sd)),
  };
}

function partsOf(
  plan: Plan,
  { front, back, firstFringe }: WarpLength,
  gone: { readonly woven: Mm; readonly gaps: Mm },
  tiedOn: Mm,
): WarpLeft['parts'] {
  const waste = front + firstFringe + back;
  const woven = warpFor(gone.woven, sharesOf(plan));
  return { tiedOn, waste, woven, gaps: gone.gaps, left: tiedOn - waste - woven - gone.gaps };
}

/** Where outer fringes come out of the waste, only what the waste does not cover. */
function lastFringe(plan: Plan, { back }: WarpLength, ending: Edge): Mm {
  const fringe = fringeOnLoom(plan, ending);
  return plan.weaving.outerFringes === 'own-warp' ? fringe : Math.max(0, fringe - back);
}

/**
 * Cloth of all pieces before a pick and the gaps between them. A gap is passed with the first pick
 * after it.
 */
function reachedBy(course: Course, pick: number) {
  const piece = course.pieces.findLast((it) => it.firstPick < pick) ?? course.pieces[0];
  if (piece === undefined) throw new Error('reachedBy: the course has no piece');
  const before = course.pieces.slice(0, piece.index);
  const gaps = before.reduce((sum, it) => sum + it.gapAfter, 0);
  const loomLength = piece.loomStart - gaps + lengthOfPiece(course, piece, pick);
  return { piece: piece.index, gaps, loomLength };
}
