/**
 * The list a weaver warps from. Slots, holes, ends and dents count from 0; ranges are half-open.
 * Everything runs from left to right as seen from the list's viewpoint, in the order of the work.
 */
import type { Mm } from '../../measure/length.ts';
import type { Run } from '../../measure/runs.ts';
import type { Letter, Side, Warp } from '../plan.ts';

/** `direct`: loops from the back beam to a peg, rigid heddle only. `ends`: a measured warp, threaded end by end. */
export const WARPING_METHODS = ['direct', 'ends'] as const;
export type WarpingMethod = (typeof WARPING_METHODS)[number];

export const VIEWPOINTS = ['front', 'back'] as const;
export type Viewpoint = Warp['viewpoint'];

/** How a warp is being put on: part of what the log says about every step ticked off. */
export interface WarpingWay {
  readonly method: WarpingMethod;
  /** The list runs left to right as seen from here. */
  readonly viewpoint: Viewpoint;
  /** Where the weaver stands; from the other side the list runs right to left. */
  readonly seenFrom: Viewpoint;
}

export interface WarpingList {
  readonly method: WarpingMethod;
  readonly viewpoint: Viewpoint;
  /** Floating selvedges not counted. */
  readonly ends: number;
  /** Loops of two ends, those of two colours included; 0 when threading end by end. */
  readonly loops: number;
  /** Ends that are not half of a loop. */
  readonly singles: number;
  /** From the back beam to the peg: the length of the warp. A loop takes twice as much yarn. */
  readonly pegDistance: Mm;
  readonly start: WarpStart;
  /** On which side of its slot a hole lies; null when threading end by end. */
  readonly holeSide: Side | null;
  /** Direct warping: one a slot. */
  readonly slots: readonly SlotPlan[];
  /** Threading: one an end. */
  readonly threads: readonly Thread[];
  /** In the order of the plan's yarns, those without ends left out. */
  readonly yarns: readonly WarpingYarn[];
  /** Counted apart from everything else. */
  readonly floating: FloatingSelvedges | null;
  readonly steps: readonly WarpingStep[];
  readonly oddPlaces: readonly OddPlace[];
}

/** Where the warp begins so that it is centred, counted from the left end of the weaving width. */
export interface WarpStart {
  /** In a rigid heddle slots are counted, the outermost opening taken to be a slot. */
  readonly kind: 'slot' | 'dent';
  readonly index: number;
  /** Slots or dents in the weaving width. */
  readonly of: number;
  /** Weaving width left empty before the first end. */
  readonly free: Mm;
}

export interface WarpingYarn {
  readonly yarn: Letter;
  readonly ends: number;
  /** Loops of this colour alone; ends = 2 × loops + its ends in ties + its single ends. */
  readonly loops: number;
  /** Yarn the warp takes, knots not counted. */
  readonly length: Mm;
}

export interface FloatingSelvedges {
  readonly yarn: Letter;
  readonly ends: 2;
  readonly length: Mm;
}

/** What a slot holds: ends that stay in it, ends that go on to its hole, and how they come there. */
export interface SlotPlan {
  readonly stays: readonly Letter[];
  readonly moves: readonly Letter[];
  /** Loops of one colour, both ends in this slot. */
  readonly loops: readonly Letter[];
  /** Loops of two colours, tied at the peg. */
  readonly ties: readonly (readonly [Letter, Letter])[];
  readonly single: Letter | null;
  /** An end exchanged with a neighbouring slot before the holes are threaded. */
  readonly swap: {
    readonly with: 'next' | 'previous';
    readonly gives: Letter;
    readonly takes: Letter;
  } | null;
  /** Index of its first end in the plan's warp order. */
  readonly firstEnd: number;
}

export interface Thread {
  readonly yarn: Letter;
  readonly place: ThreadPlace;
}

/** Dents count from the first one of the warp, slots and holes too. */
export type ThreadPlace =
  | { readonly kind: 'slot' | 'hole'; readonly index: number }
  | { readonly kind: 'shaft'; readonly shaft: 1 | 2; readonly dent: number };

/** Ends of a yarn laid so far in this phase, and loops of it alone. */
export interface YarnSoFar {
  readonly yarn: Letter;
  readonly ends: number;
  readonly loops: number;
}

interface StepHead {
  /** Unique in its list. */
  readonly id: string;
  /** The running check: every yarn of the warp once this step is done, counted anew in each phase. */
  readonly soFar: readonly YarnSoFar[];
}

export interface SetupStep {
  readonly phase: 'setup';
  readonly kind: 'setup';
}

/** Loops of one colour, or of a few colours in turn. */
export interface LoopsStep {
  readonly phase: 'loops';
  readonly kind: 'loops';
  /** Slots. */
  readonly from: number;
  readonly to: number;
  readonly loops: number;
  /** One round of loops; the step is `times` of it. */
  readonly round: readonly Run<Letter>[];
  readonly times: number;
  readonly joins: readonly YarnJoin[];
}

/** One loop half of one colour and half of another, cut and tied at the peg. */
export interface TieStep {
  readonly phase: 'loops';
  readonly kind: 'tie';
  readonly from: number;
  readonly to: number;
  /** The one that comes to the peg, and the one that goes back from it. */
  readonly yarns: readonly [Letter, Letter];
  readonly mend: Mend | null;
  readonly joins: readonly YarnJoin[];
}

/** One end by itself, at an edge of an odd warp. */
export interface SingleStep {
  readonly phase: 'loops';
  readonly kind: 'single';
  readonly from: number;
  readonly to: number;
  readonly yarn: Letter;
  readonly joins: readonly YarnJoin[];
}

/** Between the loops and the holes: the warp is wound on, and the loops are cut at the peg's end. */
export interface WindStep {
  readonly phase: 'wind';
  readonly kind: 'wind';
}

/** Slots of one colour each: half the ends go to the hole, whichever. */
export interface MoveStep {
  readonly phase: 'holes';
  readonly kind: 'move';
  readonly from: number;
  readonly to: number;
  /** Slots of each colour. */
  readonly runs: readonly Run<Letter>[];
}

/** Slots where it matters which end goes to the hole. All of them alike. */
export interface ChooseStep {
  readonly phase: 'holes';
  readonly kind: 'choose';
  readonly from: number;
  readonly to: number;
  readonly stays: readonly Letter[];
  readonly moves: readonly Letter[];
}

/** Slots two by two: the first gives the second an end and takes one back; then both are threaded. */
export interface SwapStep {
  readonly phase: 'holes';
  readonly kind: 'swap';
  readonly from: number;
  readonly to: number;
  readonly gives: Letter;
  readonly takes: Letter;
  readonly first: Openings;
  readonly second: Openings;
}

export interface Openings {
  readonly stays: readonly Letter[];
  readonly moves: readonly Letter[];
}

/** A group of ends, each through its own slot, hole or heddle. */
export interface ThreadStep {
  readonly phase: 'thread';
  readonly kind: 'thread';
  /** Ends. */
  readonly from: number;
  readonly to: number;
  readonly runs: readonly Run<Letter>[];
  readonly first: ThreadPlace;
  readonly last: ThreadPlace;
  /** Shaft looms: dents from the first of the warp, and those shared with the neighbouring group. */
  readonly dents: DentRange | null;
}

export interface DentRange {
  readonly from: number;
  readonly to: number;
  readonly sharesFirst: boolean;
  readonly sharesLast: boolean;
}

/** Two ends outside the warp, one at each edge, in no hole and on no shaft. */
export interface FloatingStep {
  readonly phase: 'floating';
  readonly kind: 'floating';
  readonly yarn: Letter;
}

export type StepWork =
  | SetupStep
  | LoopsStep
  | TieStep
  | SingleStep
  | WindStep
  | MoveStep
  | ChooseStep
  | SwapStep
  | ThreadStep
  | FloatingStep;
export type WarpingStep = StepHead & StepWork;
export type WarpingPhase = StepWork['phase'];

/** How a yarn comes into a step and leaves it. */
export interface YarnJoin {
  readonly yarn: Letter;
  readonly begins:
    | { readonly kind: 'goes-on' }
    /** Tied to the back beam. */
    | { readonly kind: 'tie-on' }
    /** Picked up where it was dropped, behind slot `from`. */
    | { readonly kind: 'pick-up'; readonly from: number }
    | { readonly kind: 'at-peg' };
  readonly ends:
    | { readonly kind: 'goes-on' }
    /** Dropped behind the heddle and carried to slot `until`. */
    | { readonly kind: 'drop'; readonly until: number }
    /** Cut, and tied to the back beam. */
    | { readonly kind: 'cut' }
    | { readonly kind: 'at-peg' };
}

/** Two neighbouring runs of the warp order that would leave no odd loop: their sum stays. */
export type Mend = readonly [RunChange, RunChange];
export interface RunChange {
  /** Index in the plan's merged runs. */
  readonly run: number;
  readonly yarn: Letter;
  readonly ends: number;
  readonly becomes: number;
}

/** Where runs of odd ends ask for more than loops; `from` and `to` are slots. */
export type OddPlace =
  | {
      readonly kind: 'swap';
      readonly from: number;
      readonly to: number;
      readonly yarns: readonly [Letter, Letter];
    }
  | {
      readonly kind: 'tie';
      readonly from: number;
      readonly to: number;
      readonly yarns: readonly [Letter, Letter];
      readonly mend: Mend | null;
    }
  | {
      readonly kind: 'single';
      readonly from: number;
      readonly to: number;
      readonly yarn: Letter;
    };
