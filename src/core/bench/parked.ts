/**
 * Parked shuttles: one queue a side. The shuttle just used goes to the far end, toward the heddle,
 * so the one to take lies nearest the weaver; before its first throw a shuttle waits by order of use.
 */
import type { Side } from '../plan/plan.ts';
import type { Course, CoursePiece } from './course.ts';
import { lastOfYarn } from './milestones.ts';
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

/** A pick and what it lies in. */
export interface PickPlace {
  readonly pick: number;
  readonly stripe: number;
  /** The side its shuttle is thrown from. */
  readonly from: Side;
}

/** A shuttle with what its place follows from: told as it is, for a second object a shuttle would cost more. */
interface Lying extends ParkedShuttle {
  readonly side: Side;
  /** Orders the queues: the stripe it was used in last, less than 0 while unused. */
  readonly since: number;
}

/**
 * Where the shuttles lie as a pick is about to be thrown: the working one, those that rest in this piece, and
 * those that start up to the end of the block after this stripe's last. Any other is put away.
 */
export function parkedAt(course: Course, piece: CoursePiece, place: PickPlace): Parked {
  const { stripes } = course;
  const left: Lying[] = [];
  const right: Lying[] = [];
  for (let yarn = 0; yarn < stripes.yarns; yarn++) {
    const shuttle = lyingAt(course, piece, place, yarn);
    if (shuttle !== null) putInOrder(shuttle.side === 'left' ? left : right, shuttle);
  }
  const isAtStart = stripes.firstPick[place.stripe] === place.pick;
  const queue = place.from === 'left' ? left : right;
  const reach = isAtStart ? queue.findIndex((it) => it.state === 'working') : 0;
  return { left, right, reach };
}

/** Behind all that were used before it. */
function putInOrder(queue: Lying[], shuttle: Lying): void {
  let at = queue.length;
  for (; at > 0; at--) {
    const before = queue[at - 1];
    if (before === undefined || before.since <= shuttle.since) break;
    queue[at] = before;
  }
  queue[at] = shuttle;
}

function lyingAt(
  course: Course,
  piece: CoursePiece,
  { pick, stripe, from }: PickPlace,
  yarn: number,
): Lying | null {
  const { stripes } = course;
  const here = lastOfYarn(stripes, yarn, stripe);
  if (here === stripe)
    return { yarn, state: 'working', side: from, since: workingSince(course, stripe, pick) };
  const isInPiece = here >= piece.firstStripe;
  const rest = isInPiece ? REST_KINDS[stripes.rest[here] ?? 0] : 'ends';
  if (rest === 'float' || rest === 'catch') {
    return { yarn, state: 'resting', side: sideOf(stripes.restSide[here] ?? 0), since: here };
  }
  const next = isInPiece ? stripes.next[here] : stripes.firstOf[piece.index * stripes.yarns + yarn];
  return next !== undefined && next >= 0 && startsSoon(course, stripe, next)
    ? { yarn, state: 'ready', side: sideOf(stripes.fromSide[next] ?? 0), since: next - NEVER }
    : null;
}

/** Thrown last, or before its first pick as long as it has rested. */
function workingSince({ stripes }: Course, stripe: number, pick: number): number {
  if (pick > (stripes.firstPick[stripe] ?? 0)) return -2 * NEVER;
  return ENTRIES[stripes.entry[stripe] ?? 0] === 'new'
    ? stripe - NEVER
    : (stripes.previous[stripe] ?? 0);
}

/** Larger than any number of stripes, so that unused shuttles lie before used ones, in order of first use. */
const NEVER = 2 ** 28;

/** A shuttle of this piece is laid out when it starts in this block or the next. */
function startsSoon({ stripes, turns }: Course, stripe: number, next: number): boolean {
  const here = turns.block[(stripes.firstTurn[stripe + 1] ?? 1) - 1] ?? 0;
  const there = turns.block[stripes.firstTurn[next] ?? 0] ?? 0;
  return there <= here + 1;
}
