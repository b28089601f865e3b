/**
 * The picture of a cloth, thread by thread: which thread lies on top where an end crosses a pick.
 *
 * A colour is one number 0xAABBGGRR: the four bytes of a canvas pixel, read as the little-endian
 * word every tablet and laptop uses, so that a row of cells is already a row of an image.
 */
import type { Loom, LoomKind, Warp } from './plan.ts';

/** What a cloth is made of; `sheds` holds, for every pick, an index into `lifts`. */
export interface Weave {
  /** Colour of every end, from the left. */
  readonly ends: Uint32Array;
  /** Colour of every pick, in the order thrown. */
  readonly picks: Uint32Array;
  readonly sheds: Uint8Array;
  /** For every shed one byte an end: 1 where the end is up. */
  readonly lifts: readonly Uint8Array[];
}

/**
 * The face of the cloth, one colour a cell, row by row, first pick first: the colour of the end
 * where the end is up, else of the pick. Writes into `out` when one of that size is given.
 *
 * Throws when the weave does not hold together or `out` has another size.
 * Example: ends A B, picks A B, plain with end 1 up in the first shed → `A A / B B`.
 */
export function clothCells(weave: Weave, out = new Uint32Array(cellCount(weave))): Uint32Array {
  checkWeave(weave, out.length);
  const { ends, picks } = weave;
  for (let pick = 0; pick < picks.length; pick++) {
    const weft = picks[pick] ?? 0;
    const lift = liftOf(weave, pick);
    const row = pick * ends.length;
    for (let end = 0; end < ends.length; end++) {
      out[row + end] = lift[end] === 1 ? (ends[end] ?? 0) : weft;
    }
  }
  return out;
}

/** The same cells as `clothCells`, each 1 where the end is up and 0 where the pick lies on top. */
export function warpUp(weave: Weave, out = new Uint8Array(cellCount(weave))): Uint8Array {
  checkWeave(weave, out.length);
  for (let pick = 0; pick < weave.picks.length; pick++) {
    out.set(liftOf(weave, pick), pick * weave.ends.length);
  }
  return out;
}

/**
 * The two sheds of plain weave over so many ends; the first end is up in shed `firstUp`. Doubled ends
 * that lie `together` in one slot or hole move as one.
 *
 * Examples: `plainLifts(3, 0)` → `[1 0 1, 0 1 0]`; `plainLifts(4, 0, 2)` → `[1 1 0 0, 0 0 1 1]`.
 */
export function plainLifts(
  ends: number,
  firstUp: 0 | 1,
  together = 1,
): readonly [Uint8Array, Uint8Array] {
  const lift = (shed: number) =>
    Uint8Array.from({ length: ends }, (_, end) => (Math.floor(end / together) + shed + 1) % 2);
  return [lift(firstUp), lift(1 - firstUp)];
}

/**
 * The shed of plain weave that lifts end 1, as an index into `SHED_WORDS` of the loom.
 *
 * A rigid heddle moves the ends in its holes, and those in the slots stay: heddle up, the holes are
 * up; heddle down, the slots are. On shafts end 1 is odd, and the odd shed lifts it. Common practice.
 */
export function shedLiftingFirstEnd(loom: LoomKind, firstEnd: Warp['firstEnd']): 0 | 1 {
  return loom === 'rigid-heddle' && firstEnd === 'slot' ? 1 : 0;
}

/**
 * The same cloth turned over left to right, as seen from the back: every end and pick keeps its
 * colour, what was up is down, and the last end comes first.
 */
export function turnedOver(weave: Weave): Weave {
  return {
    ...weave,
    ends: weave.ends.toReversed(),
    lifts: weave.lifts.map((lift) => lift.toReversed().map((up) => 1 - up)),
  };
}

/**
 * The colour `#rrggbb` as one opaque pixel 0xAABBGGRR. Throws on anything else: a plan's colours
 * were checked when it was read.
 */
export function pixelOf(colour: string): number {
  if (!/^#[0-9a-f]{6}$/i.test(colour)) throw new Error(`got colour ${colour}, wanted #rrggbb`);
  const rgb = Number.parseInt(colour.slice(1), 16);
  const red = rgb >>> 16;
  const blue = rgb & 0xff;
  return ((0xff << 24) | (blue << 16) | (rgb & 0xff00) | red) >>> 0;
}

function cellCount({ ends, picks }: Weave): number {
  return ends.length * picks.length;
}

function liftOf({ lifts, sheds }: Weave, pick: number): Uint8Array {
  const shed = sheds[pick] ?? -1;
  const lift = lifts[shed];
  if (lift === undefined) throw new Error(`got shed ${shed}, wanted one of ${lifts.length}`);
  return lift;
}

function checkWeave(weave: Weave, cells: number): void {
  const { ends, picks, sheds, lifts } = weave;
  if (sheds.length !== picks.length) {
    throw new Error(`got ${sheds.length} sheds, wanted one for each of ${picks.length} picks`);
  }
  const uneven = lifts.find((lift) => lift.length !== ends.length);
  if (uneven !== undefined) {
    throw new Error(`got a shed of ${uneven.length} ends, wanted ${ends.length}`);
  }
  if (cells !== cellCount(weave)) {
    throw new Error(`got room for ${cells} cells, wanted ${cellCount(weave)}`);
  }
}

/** The sheds of a plan's loom over its ends: in a rigid heddle the ends of one slot or hole move as one. */
export function liftsOf(loom: Loom, firstEnd: Warp['firstEnd'], ends: number) {
  const together = loom.kind === 'rigid-heddle' ? loom.endsPerDent : 1;
  return plainLifts(ends, shedLiftingFirstEnd(loom.kind, firstEnd), together);
}
