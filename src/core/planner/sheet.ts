/**
 * The sheet of a plan: everything the planner computes and keeps in sight, from one plan at once.
 *
 * Lengths are millimetres, masses grams, setts and beats threads per *millimetre* (× 25.4 per inch,
 * × 10 per cm). A length names its state of cloth (design §3); yarns are named by their index in
 * `plan.yarns`, pieces by theirs in `plan.pieces`; both count from 0.
 */
import type { WeftUse } from '../bench/left/weftTally.ts';
import type { Mm } from '../measure/length.ts';
import type { Grams } from '../measure/mass.ts';
import type { Use } from '../measure/sett.ts';
import type { Allowances, Plan, Side, Wish } from '../plan/plan.ts';
import type { Range } from '../plan/sureness.ts';
import { type WarpLength, warpLengthFor, woundEnds } from '../plan/warpLength.ts';
import { settAdvice } from './sheet/advice.ts';
import { furtherSheets, yarnSheets } from './sheet/needs.ts';
import { clothSheet, piecesComeTo } from './sheet/pieces.ts';
import type { DentSheet, SettSheet, WarpSheet, WidthSheet } from './sheet/warp.ts';
import { dentSheet, settSheet, warpSheet, widthSheet } from './sheet/warp.ts';

/** Threads per millimetre. */
export type PerMm = number;

export interface PlanSheet {
  readonly warp: WarpSheet;
  readonly widths: WidthSheet;
  readonly dents: DentSheet;
  readonly setts: SettSheet;
  readonly warpLength: WarpLength;
  /** One a piece, in weaving order. */
  readonly pieces: readonly PieceSheet[];
  /** One a yarn of the plan, in its order. */
  readonly yarns: readonly YarnSheet[];
  /** How many more like each piece the yarn allows, one a piece; the last entry is "like the last". */
  readonly further: readonly FurtherSheet[];
  readonly cloth: ClothSheet;
  readonly advice: SettAdvice;
  /** In weaving order; empty when there is nothing to say. */
  readonly warnings: readonly EdgeWarning[];
  /** The shares as the plan has them, each with its origin, for showing both beside each other. */
  readonly allowances: Allowances;
}

export interface PieceSheet {
  readonly piece: number;
  /** All picks, hems and seam allowances included. */
  readonly picks: number;
  /** Picks of each hem or seam allowance, within `picks`; 0 where there is none. */
  readonly hemPicks: { readonly beginning: number; readonly ending: number };
  /** Woven under tension, hems included, fringes apart. */
  readonly loomLength: Mm;
  readonly offLength: Mm;
  readonly washedLength: Mm;
  /** Where the washed length will lie nine times in ten; null where nothing of it was learnt. */
  readonly washedRange: Range | null;
  /** Washed without both hem or seam allowances, fringes apart. */
  readonly finishedLength: Mm;
  readonly fringes: { readonly beginning: Fringe; readonly ending: Fringe };
  /** Warp taken from the beam by what is woven. */
  readonly warpTaken: Mm;
  /** Warp left unwoven after it; 0 after the last. */
  readonly gapAfter: Mm;
  /** Average beat over the whole piece. */
  readonly picksLoom: PerMm;
  readonly picksWashed: PerMm;
  readonly wish: WishSheet | null;
  /**
   * Whether the stripes of the weft read the same from both ends. Stripes are as seen, equal
   * neighbours merged; hems and seam allowances do not count, for they are turned under.
   */
  readonly mirrored: boolean;
  /** Stripes as seen, hems included: what the bench counts in. */
  readonly stripes: number;
  /** Weft of each yarn index. */
  readonly weft: readonly WeftUse[];
  /** Warp and weft in the cloth itself, without fringes, tails and floats, per washed area. */
  readonly gramsPerSquareMetre: number;
}

export interface Fringe {
  /** Warp to leave unwoven. */
  readonly loom: Mm;
  /** As wished: washed, and twisted where it is to be. */
  readonly finished: Mm;
}

/** How far a piece lands from its wish, in the wish's own state of cloth. */
export interface WishSheet {
  readonly wish: Wish;
  readonly reached: Mm;
  /** `reached` − wished: positive too long, negative too short. */
  readonly miss: Mm;
  /** Where it will lie nine times in ten; null where nothing of it was learnt. */
  readonly range: Range | null;
}

export interface Amount {
  readonly length: Mm;
  readonly grams: Grams;
}

export interface YarnSheet {
  readonly yarn: number;
  /** Ends of this yarn, floating selvedges included, over the wound length. */
  readonly warp: Amount & { readonly ends: number };
  /** Sum over the pieces. */
  readonly weft: WeftUse;
  readonly total: Amount;
  /** Null where the weaver has not said how much there is. */
  readonly onHand: Amount | null;
  /** On hand less the total; negative: short by so much. */
  readonly left: Amount | null;
  /** `unused`: in neither warp nor weft. `unknown`: nothing on hand was stated. */
  readonly verdict: 'enough' | 'short' | 'unknown' | 'unused';
}

/** How many more pieces like one of the plan could be woven on a longer warp with the yarn on hand. */
export interface FurtherSheet {
  /** The piece they would be like. */
  readonly piece: number;
  /** Null where no yarn of such a piece was weighed; 0 also where the plan itself is short. */
  readonly more: number | null;
  /** The yarn that would run short with one piece more. */
  readonly limitedBy: number | null;
  /** Yarns such a piece takes whose amount on hand is not known: `more` holds only if they last. */
  readonly unweighed: readonly number[];
}

/** The cloth as a whole. */
export interface ClothSheet {
  /** Average over all pieces: yarn in the cloth per washed area. */
  readonly gramsPerSquareMetre: number;
  /** Washed area of all pieces, hems included, mm². */
  readonly area: number;
  /** Weight of all pieces, without fringes, tails and floats. */
  readonly grams: Grams;
}

const SETT_VERDICTS = ['open', 'within', 'close', 'too-close'] as const;
/**
 * `open` below the range, `within` it, `close` above it but still weavable, `too-close` above the
 * closest sett that plain weave allows.
 */
export type SettVerdict = (typeof SETT_VERDICTS)[number];

/** Ashenhurst's rule for the warp of the plan in plain weave. */
export interface SettAdvice {
  /** Ends of the warp lying side by side, mixed warps weighted by their ends. */
  readonly touching: PerMm;
  /** Closest plain sett: half of touching. */
  readonly closest: PerMm;
  /** Sett of this reed or heddle. */
  readonly sett: PerMm;
  /** `sett / closest`. */
  readonly ratio: number;
  readonly uses: readonly UseAdvice[];
  /** Against the whole range from the most open use to the firmest. */
  readonly verdict: SettVerdict;
  /** The k of `k·√(yd/lb)` for each yarn that is in the warp. */
  readonly constants: readonly { readonly yarn: number; readonly k: number }[];
}

export interface UseAdvice {
  readonly use: Use;
  /** Working range of setts. */
  readonly from: PerMm;
  readonly to: PerMm;
  /** The same as parts of the closest sett. */
  readonly shareFrom: number;
  readonly shareTo: number;
  readonly verdict: SettVerdict;
}

interface WarningHead {
  readonly piece: number;
  /** Path of the plan's block or edge where it is, such as `pieces[0].weft[2]`. */
  readonly path: string;
}

export type EdgeWarning =
  /** The edge end stays uncaught where these yarns come back; how many places. */
  | (WarningHead & {
      readonly kind: 'edge-not-caught';
      readonly yarns: readonly number[];
      readonly places: number;
      /** Floating selvedges catch them all the same. */
      readonly floatingSelvedges: boolean;
    })
  /** A resting yarn would float beyond the carry limit and is cut instead. */
  | (WarningHead & {
      readonly kind: 'cut-for-length';
      readonly yarn: number;
      readonly places: number;
      /** The longest float it would make, loom length. */
      readonly longest: Mm;
    })
  /** The plan carries a yarn further than its own carry limit. */
  | (WarningHead & {
      readonly kind: 'long-float';
      readonly yarn: number;
      readonly places: number;
      readonly longest: Mm;
    })
  /** The hemstitch tail falls on `side`, not where stitching starts; one pick more would mend it. */
  | (WarningHead & { readonly kind: 'tail-wrong-side'; readonly side: Side });

/**
 * Everything the planner shows about a plan. What follows from a part of it that has not changed since
 * is not worked out again (`plan/remembering.ts`).
 *
 * Throws when the plan names yarns it does not have: only `checkPlan` makes a plan. A plan wider
 * than its loom is computed all the same, so that the screen can say by how much.
 */
export function sheetOf(plan: Plan): PlanSheet {
  const warp = warpSheet(plan.warp, plan.yarns);
  const widths = widthSheet(plan);
  const ends = woundEnds(plan);
  const { sheets: pieces, warnings } = piecesComeTo(plan);
  const warpLength = warpLengthFor(
    plan,
    pieces.map((piece) => piece.loomLength),
  );
  const yarns = yarnSheets(plan, ends, warpLength.wound, pieces);
  return {
    warp,
    widths,
    dents: dentSheet(plan, warp),
    setts: settSheet(plan),
    warpLength,
    pieces,
    yarns,
    further: furtherSheets(plan, pieces, yarns),
    cloth: clothSheet(pieces, widths.washed),
    advice: settAdvice(plan, warp.endsOfYarn),
    warnings,
    allowances: plan.allowances,
  };
}
