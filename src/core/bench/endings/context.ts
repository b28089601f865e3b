/** What the endings must be told: lengths, warp and yarn are believed elsewhere, here they are only reckoned with. */
import type { Mm } from '../../measure/length.ts';
import type { Grams } from '../../measure/mass.ts';
import type { Edge } from '../../plan/plan.ts';

/** A length and where it lies nine times out of ten. */
export interface Interval {
  readonly mm: Mm;
  readonly low: Mm;
  readonly high: Mm;
}

/** A weight and where it lies nine times out of ten. */
export interface GramsInterval {
  readonly grams: Grams;
  readonly low: Grams;
  readonly high: Grams;
}

export interface EndingContext {
  /** The piece to end: the one at the fell, or the one just finished as long as its gap is not left. */
  readonly piece: number;
  /**
   * Loom length of the piece to end, from its start to just before `pick` of the course. Asked from
   * the fell to the end of the piece, both included: that end is the first pick of the next piece.
   */
  readonly believe: (pick: number) => Interval;
  /**
   * Loom length of the same piece if this much more were woven from the fell on: millimetres at the
   * planned beat by yarn index. All noughts are the fell itself. May be asked beyond the plan, and of
   * more cloth than this piece: later pieces are believed as so much more of the same weaving.
   */
  readonly believeAhead: (plannedLoom: readonly Mm[]) => Interval;
  /**
   * Loom length still weavable from the fell on, wastes taken off; not taken off are the hems,
   * fringes and gaps still to come. `low` may be below nought.
   */
  readonly warpLeft: Interval;
  /** Yarn that is not in the cloth yet, by yarn index; null when nobody knows. */
  readonly yarnLeft: (yarn: number) => GramsInterval | null;
  /** Weight of one pick of a yarn index. */
  readonly gramsPerPick: (yarn: number) => Grams;
  /** The weaver's own pace; null until it is known. */
  readonly picksPerMinute: number | null;
  /**
   * Picks of a hem or seam allowance still to come beside a neighbour of this yarn index, as the
   * course would lay it now; nought for a hemstitched edge.
   */
  readonly hemPicks: (edge: Edge, neighbour: number) => number;
  /** Warp to leave unwoven after a piece that is the last on the warp; its fringe, unless the waste covers it. */
  readonly fringeAfter: (ending: Edge) => Mm;
}
