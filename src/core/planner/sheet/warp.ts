/** The warp of a plan: its ends and stripes, its width in every state, its place in the reed. */
import { loomWidth, washedBeat, washedSett, washedWidth } from '../../measure/clothState.ts';
import type { Mm } from '../../measure/length.ts';
import type { Run } from '../../measure/runs.ts';
import { mergeRuns, readsSameBothWays, totalOf } from '../../measure/runs.ts';
import { yarnIndex } from '../../plan/blockTurns.ts';
import { endsPerMm, reedWidth, sharesOf, warpRuns } from '../../plan/geometry.ts';
import type { Plan, Warp } from '../../plan/plan.ts';
import { remembering } from '../../plan/remembering.ts';
import { type Range, rangeOf } from '../../plan/sureness.ts';
import { dentsOnLoom, dentsPerMm, dentsUsed, firstDent } from '../../plan/warping/places.ts';
import { endsOfYarns } from '../../plan/warpLength.ts';
import type { PerMm } from '../sheet.ts';

export interface WarpSheet {
  /** Ends between the selvedges; floating ones apart. */
  readonly ends: number;
  /** 2 with floating selvedges, else 0. */
  readonly floatingEnds: 0 | 2;
  /** Ends of each yarn without floating ones; they sum to `ends`. */
  readonly endsOfYarn: readonly number[];
  /** Stripes as they will be seen, left to right from the plan's viewpoint: `of` is a yarn index. */
  readonly runs: readonly Run<number>[];
  /** Whether the stripes read the same from both selvedges. */
  readonly mirrored: boolean;
}

/** The width of the warp in every state of cloth, without floating selvedges. */
export interface WidthSheet {
  readonly reed: Mm;
  readonly loom: Mm;
  /** Off the loom, unwashed: as on the loom. */
  readonly off: Mm;
  readonly washed: Mm;
  /** Where the washed width will lie nine times in ten; null where nothing of it was learnt. */
  readonly washedRange: Range | null;
  /** Hems are turned at the ends, not at the sides: as washed. */
  readonly finished: Mm;
}

/**
 * Where the warp lies in the reed or heddle. Dents are counted from 0 at the left end of the weaving
 * width, left as the plan's viewpoint has it; in a rigid heddle slots and holes both are dents, and
 * dent 0 is taken to be a slot.
 */
export interface DentSheet {
  /** Dents within the weaving width of the loom. */
  readonly onLoom: number;
  /** Dents the warp takes, without those of floating selvedges. */
  readonly used: number;
  /** Dents of floating selvedges, one at each side: 0 or 2. */
  readonly floating: 0 | 2;
  /** Whether warp and floating selvedges find room. */
  readonly fits: boolean;
  /** Width still free in the reed; negative: too wide by so much. */
  readonly room: Mm;
  /** Dent of end 1 so that the warp is centred (in a rigid heddle: as nearly as slot or hole allow). */
  readonly first: number;
  /** Rigid heddle only: the first slot that holds an end, slots counted from 0; null on shafts. */
  readonly firstSlot: number | null;
  /** How far the middle of the warp lies right of the middle of the loom; negative: left. */
  readonly offCentre: Mm;
}

export interface SettSheet {
  /** Ends per mm. */
  readonly reed: PerMm;
  readonly loom: PerMm;
  readonly washed: PerMm;
  /** The plan's picks per mm on the loom and washed; a piece's own average stands with the piece. */
  readonly picksLoom: PerMm;
  readonly picksWashed: PerMm;
}

/** Stripes and ends of each yarn, floating selvedges apart. */
export const warpSheet = remembering((warp: Warp, yarns: Plan['yarns']): WarpSheet => {
  const runs = mergeRuns(
    warpRuns(warp.order).map(({ of, count }) => ({ of: yarnIndex({ yarns }, of), count })),
  );
  return {
    ends: totalOf(runs),
    floatingEnds: warp.floatingSelvedges === undefined ? 0 : 2,
    endsOfYarn: endsOfYarns({ warp, yarns }),
    runs,
    mirrored: readsSameBothWays(runs),
  };
});

/** The width of the warp in every state of cloth (design §3). */
export function widthSheet(plan: Plan): WidthSheet {
  const shares = sharesOf(plan);
  const reed = reedWidth(plan);
  const loom = loomWidth(reed, shares);
  const washed = washedWidth(reed, shares);
  const { drawIn, shrinkWidth } = plan.allowances;
  const washedRange = rangeOf(washed, [drawIn, shrinkWidth]);
  return { reed, loom, off: loom, washed, washedRange, finished: washed };
}

/** Where the warp lies in the reed or heddle: centred, and told whether it finds room. */
export function dentSheet(plan: Plan, warp: WarpSheet): DentSheet {
  const { loom } = plan;
  const perMm = dentsPerMm(plan);
  const onLoom = dentsOnLoom(plan);
  const used = dentsUsed(plan);
  const floating = warp.floatingEnds;
  const first = firstDent(plan);
  return {
    onLoom,
    used,
    floating,
    fits: used + floating <= onLoom,
    room: loom.weavingWidth - (used + floating) / perMm,
    first,
    firstSlot: loom.kind === 'rigid-heddle' ? Math.ceil(first / 2) : null,
    offCentre: (first + used / 2) / perMm - loom.weavingWidth / 2,
  };
}

/** Sett and planned beat in their states, per millimetre. */
export function settSheet(plan: Plan): SettSheet {
  const shares = sharesOf(plan);
  const reed = endsPerMm(plan.loom);
  const picksLoom = 1 / plan.weaving.pickSpacing;
  return {
    reed,
    loom: reed / (1 - shares.drawIn),
    washed: washedSett(reed, shares),
    picksLoom,
    picksWashed: washedBeat(picksLoom, shares),
  };
}
