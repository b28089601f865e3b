/**
 * Parked shuttles: one queue a side. The shuttle just used goes to the far end, toward the heddle,
 * so the one to take lies nearest the weaver; before its first throw a shuttle waits by order of use.
 */
import type { Side } from '../plan/plan.ts';
import { firstOfYarnAfter, lastOfYarn } from './atStripe.ts';
import type { Course, CoursePiece } from './course.ts';
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

/** A pick, what it lies in, and for every yarn its last stripe up to there, −1 where there is none. */
export interface PickPlace {
  readonly pick: number;
  readonly stripe: number;
  /** The side its shuttle is thrown from. */
  readonly from: Side;
  readonly before: readonly number[];
}

/** So many stripes back a yarn is looked for one by one: where colours take turns it lies near. */
const NEAR = 6;

/** The last stripe of every yarn up to one. */
export function lastOfYarns({ stripes }: Course, stripe: number): readonly number[] {
  const before: number[] = [];
  let missing = stripes.ofYarn.length;
  for (let yarn = 0; yarn < missing; yarn++) before.push(-1);
  for (let r = stripe; r >= 0 && r > stripe - NEAR && missing > 0; r--) {
    const yarn = stripes.yarn[r] ?? 0;
    if (before[yarn] !== -1) continue;
    before[yarn] = r;
    missing--;
  }
  for (let yarn = 0; missing > 0 && yarn < before.length; yarn++) {
    if (before[yarn] !== -1) continue;
    before[yarn] = lastOfYarn(stripes, yarn, stripe);
    missing--;
  }
  return before;
}

interface Lying extends ParkedShuttle {
  readonly side: Side;
  /** Orders a queue: picks since the start of time it was last used, less than 0 while unused. */
  readonly usedAt: number;
}

/**
 * Where the shuttles lie as a pick is about to be thrown: the working one, those that rest in this piece, and
 * those that start up to the end of the block after this stripe's last. Any other is put away.
 */
export function parkedAt(course: Course, piece: CoursePiece, place: PickPlace): Parked {
  const lying: Lying[] = [];
  for (let yarn = 0; yarn < place.before.length; yarn++) {
    const shuttle = lyingAt(course, piece, place, yarn);
    if (shuttle !== null) putInOrder(lying, shuttle);
  }
  const [left, right]: [ParkedShuttle[], ParkedShuttle[]] = [[], []];
  let reach = 0;
  const isAtStart = course.stripes.firstPick[place.stripe] === place.pick;
  for (const { side, yarn, state } of lying) {
    const queue = side === 'left' ? left : right;
    if (state === 'working' && isAtStart) reach = queue.length;
    queue.push({ yarn, state });
  }
  return { left, right, reach };
}

/** Behind all that were used no later, so that yarns used alike keep their own order. */
function putInOrder(lying: Lying[], shuttle: Lying): void {
  let at = lying.length;
  for (; at > 0; at--) {
    const before = lying[at - 1];
    if (before === undefined || before.usedAt <= shuttle.usedAt) break;
    lying[at] = before;
  }
  lying[at] = shuttle;
}

function lyingAt(
  course: Course,
  piece: CoursePiece,
  { pick, stripe, from, before }: PickPlace,
  yarn: number,
): Lying | null {
  const { stripes } = course;
  const here = before[yarn] ?? -1;
  if (here === stripe)
    return { yarn, state: 'working', side: from, usedAt: workingSince(course, stripe, pick) };
  if (here >= 0 && (stripes.firstPick[here] ?? 0) >= piece.firstPick) {
    const rest = REST_KINDS[stripes.rest[here] ?? 0];
    const usedAt = (stripes.firstPick[here + 1] ?? 0) - 1;
    if (rest === 'float' || rest === 'catch') {
      return { yarn, state: 'resting', side: sideOf(stripes.restSide[here] ?? 0), usedAt };
    }
  }
  // In this piece the yarn's own stripe knows the next; beyond it, and before its first, the list does.
  const following = stripes.next[here] ?? -1;
  const next = following >= 0 ? following : firstOfYarnAfter(stripes, yarn, stripe);
  return next >= 0 && startsSoon(course, stripe, next) ? lyingReady(course, next, yarn) : null;
}

/** Thrown last, or before its first pick as long as it has rested. */
function workingSince({ stripes }: Course, stripe: number, pick: number): number {
  const start = stripes.firstPick[stripe] ?? 0;
  if (pick > start) return Number.NEGATIVE_INFINITY;
  return ENTRIES[stripes.entry[stripe] ?? 0] === 'new'
    ? start - NEVER
    : (stripes.firstPick[(stripes.previous[stripe] ?? 0) + 1] ?? 0) - 1;
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
