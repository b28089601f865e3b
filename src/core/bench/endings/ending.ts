/** What the endings are: stops, which are places to end a piece at, and fits, which are plans that come out right. */
import type { Grams } from '../../measure/mass.ts';
import type { Piece, Wish } from '../../plan/plan.ts';
import type { GramsInterval, Interval } from './context.ts';

export interface Endings {
  /** In weaving order. */
  readonly stops: readonly Stop[];
  /** For each aim those that read the same from both ends first, then what changes least. */
  readonly fits: readonly Fit[];
}

/** A place to end the piece at, its ending edge (hem, hemstitch, fringe, gap) included. */
export interface Stop extends PieceEnding {
  readonly place: StopPlace;
  /** Pick of the course before which the weft ends and the ending edge begins. */
  readonly weftEnd: number;
  /** Warp once this piece is ended, its fringe and the gap after it left too. */
  readonly warp: WarpAfter;
  /** Warp once the later pieces are woven as well, as they are planned; the same where there are none. */
  readonly warpAfterAll: WarpAfter;
  /** What adopting it appends to the log. Worked out when asked for: there may be thousands of stops. */
  readonly revision: () => Revision;
}

export type StopPlace =
  /** At the fell, now. */
  | { readonly kind: 'here'; readonly block: number }
  /** After a turn of a block that goes on in the plan; turns count from 1, blocks from 0 in the piece. */
  | { readonly kind: 'turn'; readonly block: number; readonly turn: number; readonly of: number }
  /** After a whole block, others being planned after it. */
  | { readonly kind: 'block'; readonly block: number }
  /** Where the plan ends the piece. */
  | { readonly kind: 'planned'; readonly block: number }
  /** Beyond the plan: after so many whole motifs more, and so many turns of the next one. */
  | { readonly kind: 'beyond'; readonly motifs: number; readonly turns: number };

/** How one piece comes out. */
export interface PieceEnding {
  readonly piece: number;
  /** Picks from the fell (or from the start of a later piece) to the last one, ending hem included. */
  readonly picks: number;
  /** Of the whole ending hem or seam allowance, woven or not. */
  readonly hemPicks: number;
  /** Picks of the whole piece, hems included. */
  readonly allPicks: number;
  readonly lengths: EndingLengths;
  readonly reads: Reading;
  /** Yarns with picks to weave, in the order of the plan. */
  readonly yarns: readonly YarnNeed[];
  /** At the weaver's own pace; null until it is known. */
  readonly minutes: number | null;
  /** Length in the wish's state − wish; null without a wish. */
  readonly fromWish: Interval | null;
}

/** Lengths of the whole piece in every state of cloth; finished is without both allowances, fringe apart. */
export type EndingLengths = { readonly [state in Wish['state']]: Interval };

/** Whether the stripes are the same from both ends, hems included, in yarns and picks or only to the eye. */
export const SAMENESS = ['exact', 'toTheEye', 'no'] as const;
export type Sameness = (typeof SAMENESS)[number];

export interface Reading {
  readonly same: Sameness;
  /** Yarn index of the first and the last stripe seen. */
  readonly begins: number;
  readonly ends: number;
}

export const VERDICTS = ['fits', 'maybe', 'tooLong'] as const;
export type WarpVerdict = (typeof VERDICTS)[number];

export interface WarpAfter {
  /** Weavable loom length left over; below nought where it does not reach. */
  readonly leaves: Interval;
  readonly verdict: WarpVerdict;
}

export const LASTS = ['yes', 'maybe', 'no', 'unknown'] as const;
export type Lasts = (typeof LASTS)[number];

export interface YarnNeed {
  readonly yarn: number;
  readonly picks: number;
  readonly grams: Grams;
  readonly left: GramsInterval | null;
  readonly lasts: Lasts;
}

/** The payload of the event `revised`. */
export interface Revision {
  readonly from: number;
  readonly pieces: readonly Piece[];
}

/** What a fit aims at: the piece's wished length, or the warp that is left used up and not overrun. */
export const AIMS = ['wish', 'warp'] as const;
export type Aim = (typeof AIMS)[number];

/**
 * How a fit gets there: one block longer or shorter, the two of a mirrored pair alike, all blocks to
 * come in proportion, nothing but motifs more or fewer (or the second half as the first became), or
 * nothing but later pieces dropped.
 */
export const WAYS = ['block', 'pair', 'proportion', 'motifs', 'mirror', 'dropped'] as const;
export type Way = (typeof WAYS)[number];

export interface Fit {
  readonly aim: Aim;
  readonly way: Way;
  /** Motifs more than planned; fewer when below nought. */
  readonly motifs: number;
  /** Whether blocks were also set to match what the first half really became. */
  readonly matched: boolean;
  /** Later pieces dropped, counted from the last. */
  readonly dropped: number;
  /** Blocks that change, in weaving order; those of motifs more or fewer and of dropped pieces apart. */
  readonly changes: readonly BlockChange[];
  /** The pieces from the present one on, as they come out. */
  readonly pieces: readonly PieceEnding[];
  /** Warp once all of them are woven. */
  readonly warpAfterAll: WarpAfter;
  /** Sum of the relative changes of block lengths; a block more, fewer or dropped counts 1. */
  readonly cost: number;
  /** Whether every piece that is changed, or every piece where none is, reads the same from both ends. */
  readonly mirrored: boolean;
  /** What adopting it appends to the log. */
  readonly revision: () => Revision;
}

export interface BlockChange {
  readonly piece: number;
  /** Counted from 0 inside its piece as now laid, hems included. */
  readonly block: number;
  readonly turnsFrom: number;
  readonly turnsTo: number;
  readonly picksFrom: number;
  readonly picksTo: number;
}
