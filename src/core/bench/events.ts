/**
 * The log: what happened at the loom, one event a tap, never a result. Progress is a fold over it.
 *
 * `after` names the event this device had last seen of the warp, so a log is a chain, and two copies
 * of one warp that were both woven on show as two ends instead of a sum.
 */
import type { Mm } from '../measure/length.ts';
import type { Grams } from '../measure/mass.ts';
import type { Letter, Piece, ShedWord, Side } from '../plan/plan.ts';
import type { WarpingWay } from '../plan/warping/list.ts';

export type EventId = string;

export interface EventHead {
  /** Unique across devices. */
  readonly id: EventId;
  readonly warp: string;
  readonly after: EventId | null;
  /** ISO 8601, UTC. */
  readonly at: string;
}

export type LogEvent = EventHead & Happening;
export type Happening =
  | { readonly kind: 'thrown'; readonly picks: number }
  | { readonly kind: 'takenOut'; readonly picks: number }
  | { readonly kind: 'woveLength'; readonly loomLength: Mm }
  /** By eye: so many picks of one yarn. */
  | { readonly kind: 'thrownOf'; readonly yarn: Letter; readonly picks: number }
  /** By eye: a length woven in one yarn, its picks not counted. */
  | { readonly kind: 'woveLengthOf'; readonly yarn: Letter; readonly loomLength: Mm }
  /** The part woven by eye at the fell is done. */
  | { readonly kind: 'freeEnded' }
  | { readonly kind: 'undone'; readonly event: EventId }
  | { readonly kind: 'redone'; readonly event: EventId }
  | { readonly kind: 'otherShed' }
  | {
      readonly kind: 'placed';
      readonly pick: number;
      readonly shed: ShedWord;
      readonly sides: Sides;
    }
  | { readonly kind: 'dueDone'; readonly due: string }
  | { readonly kind: 'dueDeferred'; readonly due: string }
  | { readonly kind: 'advanced' }
  | {
      readonly kind: 'blockSet';
      readonly piece: number;
      readonly block: number;
      readonly picks: number;
    }
  /**
   * Steps of the warping list ticked off, in its order; `way` names the list. Changing the way
   * begins a new list, and so takes back the steps of the old one: `steps` is negative then.
   */
  | { readonly kind: 'warped'; readonly steps: number; readonly way?: WarpingWay }
  | { readonly kind: 'cutOff' }
  /** A pin put into the cloth at the fell, to measure from later; `pin` names it within the warp. */
  | { readonly kind: 'pinned'; readonly pin: string }
  /** The fell measured from the start of the piece or from a pin; `reading` names it within the warp. */
  | {
      readonly kind: 'measured';
      readonly reading: string;
      readonly loomLength: Mm;
      readonly from: ReadFrom;
      readonly tension: Tension;
    }
  /** A reading that turned out wrong, taken back out of everything that followed from it. */
  | { readonly kind: 'readingStruck'; readonly reading: string }
  /** From now on this block keeps its length or its picks as the beat becomes known. */
  | {
      readonly kind: 'blockKept';
      readonly piece: number;
      readonly block: number;
      readonly by: Keep;
    }
  /** The picks given anew by the last reading are not wanted: its blocks keep those they had. */
  | { readonly kind: 'aimRefused'; readonly reading: string }
  /** What the second half of a mirror matches of what its first half really became. */
  | { readonly kind: 'mirrorKept'; readonly piece: number; readonly by: Keep }
  /**
   * The plan changed from piece `from` on: its pieces from there are now these. What is woven of the
   * first of them stands in it as it was woven.
   */
  | { readonly kind: 'revised'; readonly from: number; readonly pieces: readonly Piece[] }
  /** Yarn weighed: all of it that is not in the cloth, cones and shuttles; `tare` is the empty cones and shuttles. */
  | {
      readonly kind: 'weighed';
      readonly yarn: Letter;
      readonly grams: Grams;
      readonly tare: Grams;
    }
  /** The shuttle of this yarn ran empty before this pick and a full one goes on in its place. */
  | { readonly kind: 'bobbinChanged'; readonly yarn: Letter }
  /** Cloth measured in one state; what was not read is left out. `reading` names it in the warp. */
  | {
      readonly kind: 'clothRead';
      readonly reading: string;
      readonly piece: number;
      readonly state: ClothReadState;
      readonly lengths?: readonly Mm[];
      readonly widths?: readonly Mm[];
      /** One fringe, from the edge of the cloth to its tip. */
      readonly fringe?: Mm;
      readonly mass?: Grams;
    }
  /** The warp's own figures, asked at cutting off: tied on, and what of it was not woven. */
  | {
      readonly kind: 'warpRead';
      readonly reading: string;
      readonly tiedOn?: Mm;
      readonly frontWaste?: Mm;
      readonly backWaste?: Mm;
      /** Bare warp between the pieces, in weaving order. */
      readonly gaps?: readonly Mm[];
    }
  /** One end drawn out of the relaxed cloth: its length in the cloth, and pulled straight. */
  | {
      readonly kind: 'endRavelled';
      readonly reading: string;
      readonly piece: number;
      readonly straightened: Mm;
      readonly inCloth: Mm;
    }
  /** Whether the next plans learn from this piece. */
  | { readonly kind: 'learntFrom'; readonly piece: number; readonly counts: 'in' | 'out' }
  | { readonly kind: 'noted'; readonly text: string; readonly piece?: number }
  /** A photo kept beside the log; `photo` is its id there. */
  | {
      readonly kind: 'photographed';
      readonly photo: string;
      readonly text?: string;
      readonly piece?: number;
    };

/** Where a reading starts. */
export type ReadFrom = { readonly kind: 'start' } | { readonly kind: 'pin'; readonly pin: string };

/** Whether the warp was tight or eased while measuring. */
export const TENSIONS = ['tight', 'eased'] as const;
export type Tension = (typeof TENSIONS)[number];

/** The states of cloth a piece is measured in: under tension at the fell, relaxed, wet finished. */
export const CLOTH_READ_STATES = ['loom', 'off', 'washed'] as const;
export type ClothReadState = (typeof CLOTH_READ_STATES)[number];

/** What a block keeps when the real beat is not the planned one. */
export const KEEPS = ['length', 'picks'] as const;
export type Keep = (typeof KEEPS)[number];

export type Sides = { readonly [letter: Letter]: Side };
export type HappeningKind = Happening['kind'];
