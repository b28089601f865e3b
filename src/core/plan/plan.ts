/**
 * A checked plan of one warp. Only `checkPlan` makes one; the same shape is what a plan file holds.
 *
 * Lengths are millimetres, masses grams, shares fractions (0.1 = 10 %). A length names its state of
 * cloth (`loomLength`, `washed…`); see `measure/clothState.ts` for what the states mean.
 */

import type { Mm, Units } from '../measure/length.ts';
import type { Grams } from '../measure/mass.ts';
import type { Fibre } from '../measure/sett.ts';
import type { YarnCount } from '../measure/yarnCount.ts';

export const PLAN_FORMAT = 'fellmark-plan';
export const PLAN_VERSION = 1;

export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

export const LOOM_KINDS = ['rigid-heddle', 'shaft'] as const;
export type LoomKind = (typeof LOOM_KINDS)[number];

/** The words for the two sheds of plain weave: the heddle's place, or the ends a shaft loom lifts. */
export const SHED_WORDS = {
  'rigid-heddle': ['up', 'down'],
  shaft: ['odd', 'even'],
} as const satisfies Record<LoomKind, readonly [string, string]>;
export type ShedWord = (typeof SHED_WORDS)[LoomKind][number];

export type Letter = string;

export interface Plan {
  readonly format: typeof PLAN_FORMAT;
  readonly version: typeof PLAN_VERSION;
  readonly name: string;
  readonly notes?: string;
  /** What the weaver reads and types; everything stored is SI. */
  readonly units: Units;
  readonly loom: Loom;
  readonly yarns: readonly Yarn[];
  readonly warp: Warp;
  readonly weaving: Weaving;
  readonly allowances: Allowances;
  readonly pieces: readonly Piece[];
}

export interface Loom {
  readonly kind: LoomKind;
  readonly name?: string;
  /** In a rigid heddle slots and holes both count as dents. */
  readonly dents: Dents;
  readonly endsPerDent: number;
  readonly weavingWidth: Mm;
  readonly frontTieOn: Mm;
  readonly backWaste: Mm;
  /** How far the fell can travel towards the heddle before the warp must be advanced. */
  readonly weavingDepth: Mm;
}

export interface Dents {
  readonly count: number;
  readonly per: 'inch' | '10cm';
  /** Dents as counted on the heddle itself, where they differ from what it was sold as. */
  readonly made?: number;
}

export interface Yarn {
  readonly letter: Letter;
  readonly name: string;
  /** `#rrggbb` */
  readonly colour: string;
  readonly fibre?: Fibre;
  readonly count: YarnCount;
  readonly onHand?: Grams;
  /** Planned distance from pick to pick on the loom, where this yarn's differs from the plan's. */
  readonly pickSpacing?: Mm;
  readonly resting?: Resting;
  /** The yarn of the shelf this one is: its id there. Another device's shelf may not have it. */
  readonly shelf?: string;
}

/** What a yarn does while others work; without one, the carry limit decides between float and cut. */
export type Resting =
  | { readonly mode: 'float' }
  | { readonly mode: 'catch'; readonly every: number }
  | { readonly mode: 'cut' };

export interface Warp {
  readonly order: readonly Stripe[];
  /** Rigid heddle only: where end 1 lies. On shafts end 1 is an odd end. */
  readonly firstEnd?: 'slot' | 'hole';
  /** From where the warp order reads left to right. */
  readonly viewpoint: 'front' | 'back';
  readonly floatingSelvedges?: { readonly yarn: Letter };
}

export type Stripe =
  | { readonly kind: 'solid'; readonly yarn: Letter; readonly ends: number }
  | {
      readonly kind: 'alternation';
      readonly cycle: readonly { readonly yarn: Letter; readonly ends: number }[];
      readonly turns: number;
    }
  | { readonly kind: 'repeat'; readonly times: number; readonly of: readonly Stripe[] }
  | { readonly kind: 'mirror'; readonly centre: Centre; readonly of: readonly Stripe[] };

/** Whether a mirrored order shares its centre run or weaves it twice. */
export type Centre = 'shared' | 'doubled';

export interface Weaving {
  /** The hand the controls lie under. */
  readonly hand: Side;
  /** The side hemstitching starts from: there its tail hangs, from there the first pick goes. */
  readonly workingSide: Side;
  /** Planned distance from pick to pick on the loom. */
  readonly pickSpacing: Mm;
  /** The longest float a resting yarn may make along the selvedge before it is cut instead. */
  readonly carryLimit: Mm;
  /** Hemstitch tail as a multiple of the reed width. */
  readonly tailWidths: number;
  readonly picksBeforeStitching: number;
  /** Ends taken together by one stitch. */
  readonly stitchGroup: number;
  /** How the new yarn comes up where the resting one leaves the edge. */
  readonly newYarnComesUp: 'under' | 'over';
  readonly outerFringes: 'own-warp' | 'from-waste';
  readonly cuttingAllowance: Mm;
}

export const ALLOWANCE_NAMES = [
  'drawIn',
  'relax',
  'shrinkWidth',
  'shrinkLength',
  'warpTaken',
  'weftExtra',
  'twist',
] as const;
export type AllowanceName = (typeof ALLOWANCE_NAMES)[number];

/** A share and where it comes from. */
export interface Allowance {
  readonly share: number;
  readonly from: AllowanceOrigin;
}

export type AllowanceOrigin =
  | { readonly kind: 'practice' }
  | { readonly kind: 'source'; readonly name: string }
  | { readonly kind: 'typed' }
  /**
   * Learnt from washed pieces of `warps` warps (1 when absent), of the same cloth or one near it.
   * `spread` is the standard deviation of the next piece's share.
   */
  | {
      readonly kind: 'washed';
      readonly pieces: number;
      readonly spread: number;
      readonly warps?: number;
      readonly match?: 'near';
    };

export type Allowances = { readonly [name in AllowanceName]: Allowance };

export interface Piece {
  readonly name: string;
  readonly startShed: ShedWord;
  /** The side the first pick is thrown from; the working side when hemstitched, else the hand's. */
  readonly startSide?: Side;
  readonly wish?: Wish;
  readonly beginning: Edge;
  readonly ending: Edge;
  readonly weft: readonly Block[];
}

export const WISH_STATES = ['loom', 'off', 'washed', 'finished'] as const;
export interface Wish {
  readonly state: (typeof WISH_STATES)[number];
  readonly length: Mm;
}

/**
 * How a piece begins or ends. `fringe` is the finished fringe; `washedAllowance` is washed cloth
 * that the finished size does not count (turned under, or outside the seam).
 */
export type Edge =
  | { readonly kind: 'hemstitch'; readonly fringe: Mm; readonly twisted: boolean }
  | { readonly kind: 'hem'; readonly washedAllowance: Mm; readonly yarn?: Letter }
  | { readonly kind: 'zigzag'; readonly washedAllowance: Mm; readonly yarn?: Letter }
  | { readonly kind: 'plain'; readonly washedAllowance: Mm; readonly yarn?: Letter };

export type Block = SolidBlock | AlternationBlock | RepeatBlock | MirrorBlock | FreeBlock;

interface WovenBlock {
  readonly name?: string;
  /** Planned distance from pick to pick on the loom, where this block's differs. */
  readonly pickSpacing?: Mm;
  readonly resting?: { readonly [letter: Letter]: Resting };
  /** Sides chosen for yarns that start in this block. */
  readonly starts?: { readonly [letter: Letter]: Side };
}

export interface SolidBlock extends WovenBlock {
  readonly kind: 'solid';
  readonly yarn: Letter;
  readonly extent: PicksExtent | LengthExtent;
}

export interface AlternationBlock extends WovenBlock {
  readonly kind: 'alternation';
  readonly cycle: readonly { readonly yarn: Letter; readonly picks: number }[];
  /** `round` A B C A B C …; `there-and-back` A B C B A B C B … */
  readonly path: 'round' | 'there-and-back';
  /** The yarn of the first turn. */
  readonly opens: Letter;
  /** The yarn the last turn must have; free when absent. */
  readonly closes?: Letter;
  readonly extent: PicksExtent | TurnsExtent | LengthExtent;
}

export interface RepeatBlock {
  readonly kind: 'repeat';
  readonly name?: string;
  readonly times: number;
  readonly of: readonly Block[];
}

export interface MirrorBlock {
  readonly kind: 'mirror';
  readonly name?: string;
  readonly centre: Centre;
  readonly of: readonly Block[];
}

/** A part of a piece woven by eye: its picks are what is thrown. Never inside a group. */
export interface FreeBlock extends WovenBlock {
  readonly kind: 'free';
  /** About how long it is meant to be; nobody is held to it. */
  readonly loomLength?: Mm;
}

export interface PicksExtent {
  readonly kind: 'picks';
  readonly picks: number;
}
export interface TurnsExtent {
  readonly kind: 'turns';
  readonly turns: number;
}
/** A loom length, turned into picks by the beat now known. `parity` is for solids: even unless asked. */
export interface LengthExtent {
  readonly kind: 'length';
  readonly loomLength: Mm;
  readonly parity?: 'even' | 'odd' | 'any';
}
