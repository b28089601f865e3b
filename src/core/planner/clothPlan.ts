/**
 * The whole cloth of a plan as a picture has it: where every piece lies on a page, what every pick
 * looks like and how long it is, and where fringes, hems and cuts are.
 *
 * Lengths are millimetres of the state shown. A part is counted from its beginning, the first pick
 * upwards, as the cloth grows on the loom; the page is counted from its upper left corner.
 */
import type { Course } from '../bench/course.ts';
import { loomWidth, washedWidth } from '../measure/clothState.ts';
import { shareIntoGroups } from '../measure/groups.ts';
import type { Mm } from '../measure/length.ts';
import { clothCells } from '../plan/clothPicture.ts';
import { endsFromLeft, liftsFromLeft } from '../plan/clothThreads.ts';
import { reedWidth, sharesOf } from '../plan/geometry.ts';
import type { Plan } from '../plan/plan.ts';
import { type PlacedPart, placeParts } from './clothPage.ts';
import { BARE, type LaidPart, layOnLoom, layWashed } from './clothRows.ts';

/** Under tension as woven, or cut apart, washed and its hems turned. */
export const CLOTH_STATES = ['loom', 'washed'] as const;
export type ClothState = (typeof CLOTH_STATES)[number];

export interface ClothPlan {
  readonly plan: Plan;
  readonly state: ClothState;
  /** The page on which the parts lie. */
  readonly width: Mm;
  readonly height: Mm;
  /** From selvedge to selvedge. */
  readonly clothWidth: Mm;
  /** Colour of every end, from the left as the weaver sits. */
  readonly ends: Uint32Array;
  readonly lifts: readonly Uint8Array[];
  /** Ends of every hemstitched group, from the left. */
  readonly groups: readonly number[];
  /** On the loom one, all pieces with the warp between them; washed, one a piece. */
  readonly parts: readonly ClothPart[];
}

/** Its length from end to end, fringes included. */
export interface ClothPart extends PlacedPart, LaidPart {}

export interface ClothChoice {
  readonly state: ClothState;
  /** One piece of the plan; all of them when absent. */
  readonly piece?: number;
  /** Width over height of the place the page is for: washed pieces are laid out to suit it. */
  readonly aspect?: number;
}

/** Lays out the cloth of a course. Linear in its picks. Throws on a piece the plan has not got. */
export function clothPlan(course: Course, { state, piece, aspect = 1 }: ClothChoice): ClothPlan {
  const { plan } = course;
  const pieces = piece === undefined ? course.pieces : course.pieces.slice(piece, piece + 1);
  if (pieces.length === 0) throw new Error(`got piece ${piece}, wanted one of the plan`);
  const laid =
    state === 'loom' ? [layOnLoom(course, pieces)] : pieces.map((it) => layWashed(course, it));
  const reed = reedWidth(plan);
  const clothWidth = state === 'loom' ? loomWidth(reed, sharesOf(plan)) : washedWidthOf(plan);
  const page = placeParts(
    laid.map(({ length }) => length),
    clothWidth,
    aspect,
  );
  const ends = endsFromLeft(plan);
  const parts = laid.map((part, i) => ({ ...part, ...placeOf(page.places, i) }));
  const groups = stitchGroups(ends.length, plan.weaving.stitchGroup);
  const lifts = liftsFromLeft(plan, ends.length);
  const { width, height } = page;
  return { plan, state, width, height, clothWidth, ends, lifts, groups, parts };
}

function washedWidthOf(plan: Plan): Mm {
  return washedWidth(reedWidth(plan), sharesOf(plan));
}

function placeOf(places: readonly PlacedPart[], i: number): PlacedPart {
  const place = places[i];
  if (place === undefined) throw new Error(`got no place for part ${i}, wanted one`);
  return place;
}

/**
 * Ends of each hemstitched group from the left; groups of one end more are spread over the width.
 * Example: 11 ends in sixes → 5, 6.
 */
export function stitchGroups(ends: number, wished: number): readonly number[] {
  const { groups, larger, size } = shareIntoGroups(ends, wished);
  return Array.from({ length: groups }, (_, k) => {
    const before = Math.floor((k * larger) / groups);
    return size + Math.floor(((k + 1) * larger) / groups) - before;
  });
}

/** Distance from end to end. */
export function endWidth({ clothWidth, ends }: ClothPlan): Mm {
  return clothWidth / ends.length;
}

export interface CellWindow {
  /** Ends from the left and rows in the order woven, half-open. */
  readonly ends: readonly [number, number];
  readonly rows: readonly [number, number];
}

/** The cells of a view: one colour a cell, first pick first; an end shows where warp lies bare. */
export function windowCells(cloth: ClothPlan, part: ClothPart, view: CellWindow): Uint32Array {
  const [firstEnd, lastEnd] = view.ends;
  const cut = (lift: Uint8Array) => lift.subarray(firstEnd, lastEnd);
  const bare = new Uint8Array(Math.max(0, lastEnd - firstEnd)).fill(1);
  const { lifts } = cloth;
  return clothCells({
    ends: cloth.ends.subarray(firstEnd, lastEnd),
    picks: part.rows.colours.subarray(...view.rows),
    sheds: part.rows.sheds
      .subarray(...view.rows)
      .map((shed) => (shed === BARE ? lifts.length : shed)),
    lifts: [...lifts.map(cut), bare],
  });
}
