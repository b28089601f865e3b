/** How long a warp is wound and of what: the same for the planner's needs and for what is left at the loom. */
import { warpFor } from '../measure/clothState.ts';
import { type Mm, roundUpWarp } from '../measure/length.ts';
import { yarnIndex } from './blockTurns.ts';
import { fringeOnLoom, gapAfter, gapBetween, sharesOf, warpRuns } from './geometry.ts';
import type { Edge, Plan } from './plan.ts';
import { remembering } from './remembering.ts';

/** The length of the warp; the parts sum to `exact`. */
export interface WarpLength {
  /** Front tie-on; where outer fringes come out of the waste, long enough for the first one. */
  readonly front: Mm;
  /** All woven loom lengths as warp taken from the beam. */
  readonly woven: Mm;
  /** The N − 1 gaps: fringes of both neighbours and the cutting allowance. */
  readonly gaps: Mm;
  /** Fringe before the first piece; 0 where it comes out of the waste. */
  readonly firstFringe: Mm;
  /** Fringe after the last piece; 0 where it comes out of the waste. */
  readonly lastFringe: Mm;
  /** Back waste; where outer fringes come out of the waste, long enough for the last one. */
  readonly back: Mm;
  readonly exact: Mm;
  /** Rounded up to the next ¼ yd or 10 cm: what is wound, and what the needs count with. */
  readonly wound: Mm;
}

/** What pieces on a warp ask of its length. */
export interface WarpParts {
  /** Loom lengths of all pieces together. */
  readonly loomLength: Mm;
  readonly gaps: Mm;
  /** The edges the warp begins and ends with. */
  readonly first: Edge;
  readonly last: Edge;
}

/** The length of the plan's own warp; `loomLengths` one a piece. Throws when the plan has no piece. */
export function warpLengthFor(plan: Plan, loomLengths: readonly Mm[]): WarpLength {
  const first = plan.pieces[0];
  const last = plan.pieces[plan.pieces.length - 1];
  if (first === undefined || last === undefined) throw new Error('wanted a piece, got none');
  return warpLengthOf(plan, {
    loomLength: loomLengths.reduce((sum, length) => sum + length, 0),
    gaps: plan.pieces.reduce((sum, _, i) => sum + gapAfter(plan, i), 0),
    first: first.beginning,
    last: last.ending,
  });
}

/**
 * Front tie-on + what weaving takes + gaps + outer fringes + back waste, rounded up (design §4).
 * Outer fringes that come out of the waste ask for no warp of their own, but for waste to cover them.
 */
export function warpLengthOf(plan: Plan, parts: WarpParts): WarpLength {
  const { loom, weaving } = plan;
  const fringes = [fringeOnLoom(plan, parts.first), fringeOnLoom(plan, parts.last)] as const;
  const own = weaving.outerFringes === 'own-warp';
  const front = own ? loom.frontTieOn : Math.max(loom.frontTieOn, fringes[0]);
  const back = own ? loom.backWaste : Math.max(loom.backWaste, fringes[1]);
  const [firstFringe, lastFringe] = own ? fringes : [0, 0];
  const woven = warpFor(parts.loomLength, sharesOf(plan));
  const exact = front + woven + parts.gaps + firstFringe + lastFringe + back;
  const wound = roundUpWarp(exact, plan.units);
  return { front, woven, gaps: parts.gaps, firstFringe, lastFringe, back, exact, wound };
}

/** Gaps that so many pieces more like piece `like` bring, woven after the plan's last. */
export function furtherGaps(plan: Plan, like: number, more: number): Mm {
  const [last, same] = [plan.pieces[plan.pieces.length - 1], plan.pieces[like]];
  if (last === undefined || same === undefined) {
    throw new Error(`wanted a piece of the plan, got ${like}`);
  }
  if (more === 0) return 0;
  const gap = (before: Edge) => gapBetween(plan, before, same.beginning);
  return gap(last.ending) + (more - 1) * gap(same.ending);
}

/** Ends of each yarn index between the selvedges, floating ones apart. */
export function endsOfYarns({ warp, yarns }: Pick<Plan, 'warp' | 'yarns'>): readonly number[] {
  return endsInOrder(warp.order, yarns);
}

/** Asked with every pick, for what is left of the yarns. */
const endsInOrder = remembering(
  (order: Plan['warp']['order'], yarns: Plan['yarns']): readonly number[] => {
    const ends = yarns.map(() => 0);
    for (const { of, count } of warpRuns(order)) {
      const yarn = yarnIndex({ yarns }, of);
      ends[yarn] = (ends[yarn] ?? 0) + count;
    }
    return ends;
  },
);

/** Ends of each yarn index as they are wound: floating selvedges included. */
export function woundEnds(plan: Plan): readonly number[] {
  const ends = endsOfYarns(plan);
  const floating = plan.warp.floatingSelvedges?.yarn;
  return plan.yarns.map((yarn, i) => (ends[i] ?? 0) + (yarn.letter === floating ? 2 : 0));
}
