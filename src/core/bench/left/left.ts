/**
 * What is left of warp and yarn, each with its interval: the shapes the bench shows.
 *
 * Every interval is one of 90 %: nine in ten of such warps end inside it. Lengths are millimetres,
 * masses grams, yarns and pieces are named by their index; all of it holds before pick `pick` is thrown.
 */
import type { Mm } from '../../measure/length.ts';
import type { Grams } from '../../measure/mass.ts';

/** A length as far as it is known: 90 % interval and standard deviation. */
export interface BelievedLength {
  readonly mm: Mm;
  readonly low: Mm;
  readonly high: Mm;
  readonly sd: Mm;
}

/** A mass as far as it is known: 90 % interval and standard deviation. */
export interface BelievedGrams {
  readonly grams: Grams;
  readonly low: Grams;
  readonly high: Grams;
  readonly sd: Grams;
}

/** A stretch of one yarn, by length and by weight. */
export interface BelievedYarn {
  readonly length: BelievedLength;
  readonly grams: BelievedGrams;
}

/**
 * Whether it lasts to the end of the plan: `yes` with the whole interval, `no` with none of it. Else
 * from which pick on it may fail: the first pick that could not be woven.
 */
export type Reach =
  | { readonly kind: 'yes' }
  | {
      readonly kind: 'maybe' | 'no';
      /** By the bad end of the interval. */
      readonly earliest: number;
      /** Picks of all yarns from here to `earliest`. */
      readonly picks: number;
      /** By the middle of the interval; null where that reaches. */
      readonly likely: number | null;
    };

/** The warp as it was tied on, from front knots to back knots. */
export interface TiedOn {
  readonly mm: Mm;
  readonly sd: Mm;
}

/** What the warp's account needs beside the course, whose lengths are the believed ones. */
export interface WarpContext {
  readonly tiedOn: TiedOn;
  /** Loom length woven so far, one a piece; nought for a piece not begun. */
  readonly woven: readonly BelievedLength[];
  /** Standard deviation of so much loom length still to be woven from here on, by the beat now known. */
  readonly ahead: (loomLength: Mm) => Mm;
}

export interface WarpLeft {
  /** Loom length that can still be woven from the fell; the ending's own fringe comes out of it. */
  readonly left: BelievedLength;
  /** Loom length the plan still wants, with its gaps and fringe as if they were woven. */
  readonly wanted: BelievedLength;
  /** `left` − `wanted`, as loom length; below nought: short by so much. */
  readonly spare: BelievedLength;
  readonly reach: Reach;
  /** Where the warp tied on has gone, as lengths of warp; the parts sum to `tiedOn`. */
  readonly parts: WarpGone;
}

export interface WarpGone {
  readonly tiedOn: Mm;
  /** Front tie-on, back waste and the first fringe. */
  readonly waste: Mm;
  /** Taken by what is woven. */
  readonly woven: Mm;
  /** Gaps passed. */
  readonly gaps: Mm;
  /** Below nought where more was woven than can have been tied on. */
  readonly left: Mm;
}

/** Yarn weighed: net is all of it that is not in the cloth. */
export interface YarnWeighing {
  readonly yarn: number;
  /** Picks in the cloth when it was weighed. */
  readonly pick: number;
  readonly net: Grams;
  /** Whether the warp was already wound off it. */
  readonly wound: boolean;
}

/** An empty bobbin of this yarn changed for a full one before a pick. */
export interface BobbinChange {
  readonly yarn: number;
  readonly pick: number;
}

/** What a yarn's account needs beside the course. */
export interface YarnContext {
  readonly tiedOn: TiedOn;
  /** In the order they were taken. */
  readonly weighings: readonly YarnWeighing[];
  readonly bobbins: readonly BobbinChange[];
}

export interface YarnLeft {
  readonly yarn: number;
  /** Not in the cloth: cone, shuttles, bobbins. Null where nobody said or weighed how much there is. */
  readonly left: BelievedYarn | null;
  /** Taken so far by warp and weft of this warp. */
  readonly used: { readonly warp: BelievedGrams; readonly weft: BelievedGrams };
  /** Real use of weft as a multiple of the plan's. */
  readonly use: { readonly factor: number; readonly sd: number };
  /** Of one pick in the shed. */
  readonly perPick: BelievedGrams;
  /** Still wanted to the end of this block, this piece, the whole warp. */
  readonly wanted: {
    readonly block: BelievedYarn;
    readonly piece: BelievedYarn;
    readonly warp: BelievedYarn;
  };
  /** `left` − wanted by the whole warp; below nought: short by so much. */
  readonly spare: BelievedGrams | null;
  /** Null where `left` is, and something is wanted. */
  readonly reach: Reach | null;
  /** How far the last weighing was off what was expected, where that cannot be use: yarn came or went. */
  readonly misfit: Grams | null;
}

export type WindSpan = 'block' | 'piece';

/** What to wind for the next block or piece that takes a yarn: the high end of the interval will do. */
export interface WindFor extends BelievedYarn {
  readonly yarn: number;
  /** Index of the block or piece in the course. */
  readonly of: number;
  /** Its picks, half-open. */
  readonly from: number;
  readonly to: number;
  readonly bobbins: BobbinNeed | null;
}

export interface BobbinNeed {
  /** What one bobbin holds, as it was learnt: its length, and the picks of this yarn it lasts. */
  readonly holds: Mm;
  readonly picks: number;
  /** Bobbins to wind. */
  readonly count: number;
}

/** How many pieces more like one of the plan warp and yarn allow, woven after the last. */
export interface FurtherPieces {
  readonly piece: number;
  /** By the middle of the intervals; 0 also where the plan itself is short. */
  readonly more: number;
  /** By their bad ends: so many will do. */
  readonly sure: number;
  /** What would run short with one piece more than `more`. */
  readonly limitedBy: { readonly kind: 'warp' } | { readonly kind: 'yarn'; readonly yarn: number };
  /** Yarns such a piece takes whose amount is not known: the count holds only if they last. */
  readonly unweighed: readonly number[];
}

/** How fast this weaver throws. */
export interface Pace {
  readonly picksPerMinute: number;
  /** Picks it was learnt from. */
  readonly picks: number;
}
