/**
 * Parked shuttles: one queue a side. The shuttle just used goes to the far end, toward the heddle,
 * so the one to take lies nearest the weaver; before its first throw a shuttle waits by order of use.
 */
import type { Side } from '../plan/plan.ts';
import type { Course, CoursePiece } from './course.ts';
import { lastAtOrBefore } from './search.ts';
import { ENTRIES, REST_KINDS, sideOf } from './stripes.ts';

export interface Parked {
  /** Nearest the weaver first. */
  readonly left: readonly ParkedShuttle[];
  readonly right: readonly ParkedShuttle[];
  /** Place of the shuttle to take in its queue, from 0; above 0 the plan breaks the queue: reach over. */
  readonly reach: number;
}

export interface ParkedShuttle {
  readonly yarn: number;
  /** `working` is thrown next; `ready` waits for its first throw; `resting` will come back. */
  readonly state: 'working' | 'resting' | 'ready';
}

interface Lying extends ParkedShuttle {
  readonly side: Side;
  /** Orders a queue: picks since the start of time it was last used, less than 0 while unused. */
  readonly usedAt: number;
}

export function parkedAt(course: Course, piece: CoursePiece, stripe: number, pick: number): Parked {
  const lying = course.plan.yarns
    .map((_, yarn) => lyingAt(course, piece, stripe, pick, yarn))
    .filter((it) => it !== null)
    .sort((a, b) => a.usedAt - b.usedAt || a.yarn - b.yarn);
  const queue = (side: Side) =>
    lying.filter((it) => it.side === side).map(({ yarn, state }) => ({ yarn, state }));
  const left = queue('left');
  const right = queue('right');
  const working = (it: ParkedShuttle) => it.state === 'working';
  const atStart = course.stripes.firstPick[stripe] === pick;
  const reach = atStart ? Math.max(left.findIndex(working), right.findIndex(working)) : 0;
  return { left, right, reach };
}

function lyingAt(
  course: Course,
  piece: CoursePiece,
  stripe: number,
  pick: number,
  yarn: number,
): Lying | null {
  const { stripes } = course;
  const list = stripes.ofYarn[yarn];
  if (list === undefined) return null;
  const at = lastAtOrBefore(list, list.length, stripe);
  const here = list[at];
  if (here === stripe) return lyingWorking(course, stripe, pick, yarn);
  if (here !== undefined && (stripes.firstPick[here] ?? 0) >= piece.firstPick) {
    const rest = REST_KINDS[stripes.rest[here] ?? 0];
    const usedAt = (stripes.firstPick[here + 1] ?? 0) - 1;
    if (rest === 'float' || rest === 'catch') {
      return { yarn, state: 'resting', side: sideOf(stripes.restSide[here] ?? 0), usedAt };
    }
  }
  const next = list[at + 1];
  return next !== undefined && startsSoon(course, stripe, next)
    ? lyingReady(course, next, yarn)
    : null;
}

function lyingWorking(course: Course, stripe: number, pick: number, yarn: number): Lying {
  const { stripes } = course;
  const start = stripes.firstPick[stripe] ?? 0;
  const flips = stripes.midFlips.filter((it) => it.stripe === stripe && it.pick <= pick).length;
  const side = sideOf((stripes.fromSide[stripe] ?? 0) ^ ((pick - start + flips) & 1));
  if (pick > start) return { yarn, state: 'working', side, usedAt: Number.NEGATIVE_INFINITY };
  const fresh = ENTRIES[stripes.entry[stripe] ?? 0] === 'new';
  const usedAt = fresh
    ? start - NEVER
    : (stripes.firstPick[(stripes.previous[stripe] ?? 0) + 1] ?? 0) - 1;
  return { yarn, state: 'working', side, usedAt };
}

function lyingReady(course: Course, next: number, yarn: number): Lying {
  const { stripes } = course;
  return {
    yarn,
    state: 'ready',
    side: sideOf(stripes.fromSide[next] ?? 0),
    usedAt: (stripes.firstPick[next] ?? 0) - NEVER,
  };
}

/** Larger than any number of picks, so that unused shuttles lie before used ones, in order of first use. */
const NEVER = 1e9;

/** A shuttle is laid out when it starts in this block or the next of the same piece. */
function startsSoon(course: Course, stripe: number, next: number): boolean {
  const { stripes, turns, blocks } = course;
  const here = turns.block[(stripes.firstTurn[stripe + 1] ?? 1) - 1] ?? 0;
  const there = turns.block[stripes.firstTurn[next] ?? 0] ?? 0;
  return there <= here + 1 && blocks[there]?.piece === blocks[here]?.piece;
}
