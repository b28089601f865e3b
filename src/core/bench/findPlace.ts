/** Find my place: what lies at the fell, and the picks of the plan that could have led to it. */
import type { Side } from '../plan/plan.ts';
import type { Course, CoursePiece, Shed } from './course.ts';
import { type PickFacts, pickAt, pieceAt, shedAt, yarnAt } from './pickAt.ts';

/** What the weaver sees; null where it was not told. */
export interface SeenAtFell {
  readonly yarn: number;
  /** Picks of that yarn at the fell, the last thrown included. */
  readonly picks: number | null;
  /** The shed the next pick goes into. */
  readonly nextShed: Shed | null;
  /** Where the shuttle that was thrown last lies now. */
  readonly side: Side | null;
}

export interface Place {
  /** The pick to throw next. */
  readonly pick: number;
  /** What of the seen does not agree with the plan here. */
  readonly shedAgrees: boolean;
  readonly sideAgrees: boolean;
}

/**
 * Places that end in the seen stripe, best first: in the piece at pick `near` before its neighbours,
 * with shed and side as seen before those where they would have to be set, nearer before farther.
 * At most `most` of them.
 */
export function findPlaces(
  course: Course,
  near: number,
  seen: SeenAtFell,
  most: number,
): readonly Place[] {
  const at = Math.max(0, Math.min(near, course.picks));
  // Between two pieces the last of the one and the first of the other both lie near.
  const here = new Set([pieceAt(course, Math.max(0, at - 1)).index, pieceAt(course, at).index]);
  const around = course.pieces.filter((it) => [...here].some((i) => Math.abs(i - it.index) <= 1));
  return around
    .flatMap((piece) =>
      placesIn(course, piece, at, seen).map((place) => ({
        place,
        rank: misses(place) + (here.has(piece.index) ? 0 : 1),
      })),
    )
    .sort((a, b) => a.rank - b.rank || distance(a.place, near) - distance(b.place, near))
    .slice(0, most)
    .map(({ place }) => place);
}

function distance(place: Place, near: number): number {
  return Math.abs(place.pick - near);
}

function placesIn(
  course: Course,
  piece: CoursePiece,
  near: number,
  seen: SeenAtFell,
): readonly Place[] {
  const { stripes } = course;
  const range = stripes.ofPieces[piece.index] ?? { firstStripe: 0, stripes: 0 };
  const places: Place[] = [];
  for (let r = range.firstStripe; r < range.firstStripe + range.stripes; r++) {
    if (stripes.yarn[r] !== seen.yarn) continue;
    const start = stripes.firstPick[r] ?? 0;
    const end = stripes.firstPick[r + 1] ?? start;
    for (const pick of endsWithin(start, end, near, seen.picks)) {
      places.push(compare(course, piece, pick, seen));
    }
  }
  return places;
}

/** Positions after a pick of the stripe: the counted one, or without a count the nearest and its neighbours. */
function endsWithin(
  start: number,
  end: number,
  near: number,
  picks: number | null,
): readonly number[] {
  if (picks !== null) return picks > 0 && start + picks <= end ? [start + picks] : [];
  const nearest = Math.max(start + 1, Math.min(end, near));
  return [nearest - 1, nearest, nearest + 1].filter((pick) => pick > start && pick <= end);
}

function misses(place: Place): number {
  return (place.shedAgrees ? 0 : 1) + (place.sideAgrees ? 0 : 1);
}

function compare(course: Course, piece: CoursePiece, pick: number, seen: SeenAtFell): Place {
  const last = pickAt(course, pick - 1);
  const next = pickAt(course, pick);
  const goesOn = next !== null && next.stripe.index === last?.stripe.index;
  const lands = goesOn ? next.from : last?.leaving?.side;
  const within = pick < piece.firstPick + piece.picks;
  // The weaver may have taken the other shed for the very next pick.
  const shed = within ? shedAt(course, piece, pick) : 1 - shedAt(course, piece, pick - 1);
  return {
    pick,
    shedAgrees: seen.nextShed === null || seen.nextShed === shed,
    sideAgrees: seen.side === null || seen.side === lands,
  };
}

/** Yarn and picks of the stripe at the fell after `pick` picks, as a weaver would count there; null before the first. */
export function picksAtFell(
  course: Course,
  pick: number,
): { readonly yarn: number; readonly picks: number } | null {
  const last = pickAt(course, pick - 1);
  if (last === null) return null;
  return { yarn: yarnAt(course, pick - 1), picks: last.stripe.done + 1 };
}

/**
 * The nth pick of a piece, both as the loom card counts them: pieces from 0, picks from 1. Null where
 * the piece has no such pick.
 */
export function pickOfPiece(course: Course, piece: number, nth: number): PickFacts | null {
  const it = course.pieces[piece];
  if (it === undefined || !Number.isInteger(nth) || nth < 1 || nth > it.picks) return null;
  return pickAt(course, it.firstPick + nth - 1);
}
