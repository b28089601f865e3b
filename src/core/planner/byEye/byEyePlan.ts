/** A warp without a plan: only what the bench must know to weave on it by eye. */
import { hemPicks } from '../../bench/layPiece.ts';
import { loomLengthFromWarp } from '../../measure/clothState.ts';
import { MM_PER_INCH, MM_PER_YARD, type Mm, type Units, WARP_STEPS } from '../../measure/length.ts';
import { spacingsIn } from '../../plan/blockTurns.ts';
import { endsPerMm, gapAfter, sharesOf } from '../../plan/geometry.ts';
import type {
  Allowances,
  Edge,
  Letter,
  Loom,
  LoomKind,
  Piece,
  Plan,
  Yarn,
} from '../../plan/plan.ts';
import { SHED_WORDS } from '../../plan/plan.ts';
import { warpLengthOf } from '../../plan/warpLength.ts';
import { newPlan, USUAL_ALLOWANCES } from '../newPlan.ts';
import { anotherYarn } from '../nextYarn.ts';

export const BY_EYE_EDGES = ['plain', 'hem', 'hemstitch'] as const;
export type ByEyeEdge = (typeof BY_EYE_EDGES)[number];

/** What is asked before a warp is woven by eye. */
export interface ByEyeWarp {
  readonly name: string;
  readonly units: Units;
  readonly loom: Loom;
  /** Any of them may be thrown. */
  readonly yarns: readonly Yarn[];
  /** The yarn of the warp. */
  readonly warpYarn: Letter;
  readonly ends: number;
  /** From knot to knot, as tied on; what is over a whole ¼ yd or 10 cm is not counted on. */
  readonly warpLength: Mm;
  readonly pieces: number;
  /** How each piece begins and ends. */
  readonly edge: ByEyeEdge;
}

/** Where it starts: a narrow warp of a usual yarn, one piece as long as it lasts. Figures are common practice, no source. */
export function startingByEye(units: Units, kind: LoomKind, shelf: readonly Yarn[]): ByEyeWarp {
  const { loom, yarns } = newPlan(units, kind);
  const used = shelf.length > 0 ? shelf : [...yarns, anotherYarn(yarns, 'B')];
  return {
    name: 'Woven by eye',
    units,
    loom,
    yarns: used,
    warpYarn: used[0]?.letter ?? 'A',
    ends: evenEnds(endsPerMm(loom) * (units === 'inch' ? 12 * MM_PER_INCH : 300)),
    warpLength: units === 'inch' ? 2.5 * MM_PER_YARD : 2500,
    pieces: 1,
    edge: 'plain',
  };
}

/** Even, because direct warping lays ends by loops of two. */
export const evenEnds = (ends: number): number => Math.max(2, 2 * Math.round(ends / 2));

/**
 * The plan of such a warp: every piece is one part woven by eye, all of them meant to be of one
 * length that uses the warp up. It need not pass `checkPlan`: what was typed is in it.
 */
export function byEyePlan(warp: ByEyeWarp, allowances: Allowances = USUAL_ALLOWANCES): Plan {
  const base = newPlan(warp.units, warp.loom.kind, allowances);
  const { firstEnd, viewpoint } = base.warp;
  const width = warp.ends / endsPerMm(warp.loom);
  const blank: Plan = {
    ...base,
    name: warp.name,
    loom: { ...warp.loom, weavingWidth: Math.max(warp.loom.weavingWidth, width) },
    yarns: warp.yarns,
    warp: {
      order: [{ kind: 'solid', yarn: warp.warpYarn, ends: warp.ends }],
      ...(firstEnd === undefined ? {} : { firstEnd }),
      viewpoint,
    },
    pieces: Array.from({ length: warp.pieces }, (_, i) => freePiece(warp, i)),
  };
  return meantAs(blank, freeLengthEach(blank, countedOn(warp)));
}

/** Warp lengths are known by the step everywhere: told longer than it is, the last piece would fall short. */
function countedOn({ warpLength, units }: ByEyeWarp): Mm {
  const step = WARP_STEPS[units];
  return Math.floor(warpLength / step + 1e-6) * step;
}

function freePiece({ units, loom, edge, pieces }: ByEyeWarp, index: number): Piece {
  const edges = edgeAs(edge, units);
  return {
    name: pieces === 1 ? 'By eye' : `Piece ${index + 1}`,
    startShed: SHED_WORDS[loom.kind][0],
    beginning: edges,
    ending: edges,
    weft: [{ kind: 'free' }],
  };
}

function edgeAs(kind: ByEyeEdge, units: Units): Edge {
  const inch = units === 'inch';
  switch (kind) {
    case 'plain':
      return { kind, washedAllowance: 0 };
    case 'hem':
      return { kind, washedAllowance: inch ? 1.5 * MM_PER_INCH : 40 };
    case 'hemstitch':
      return { kind, fringe: inch ? 2 * MM_PER_INCH : 50, twisted: false };
  }
}

/** Loom length each piece of such a plan is meant to have; less than nothing where its warp is too short. */
export function meantLength(plan: Plan): Mm {
  const [block] = plan.pieces[0]?.weft ?? [];
  return block?.kind === 'free' ? (block.loomLength ?? 0) : 0;
}

function freeLengthEach(plan: Plan, warpLength: Mm): Mm {
  const [first] = plan.pieces;
  if (first === undefined) throw new Error('freeLengthEach: wanted a piece, got none');
  const gaps = plan.pieces.reduce((sum, _, i) => sum + gapAfter(plan, i), 0);
  const edges = { first: first.beginning, last: first.ending };
  const bare = warpLengthOf(plan, { loomLength: 0, gaps, ...edges }).exact;
  const weavable = loomLengthFromWarp(warpLength - bare, sharesOf(plan));
  const spacing = spacingsIn(plan, undefined)[0] ?? 0;
  const hems = hemPicks(plan, first.beginning, 0) + hemPicks(plan, first.ending, 0);
  return weavable / plan.pieces.length - hems * spacing;
}

function meantAs(plan: Plan, loomLength: Mm): Plan {
  const pieces = plan.pieces.map(
    (piece): Piece => ({ ...piece, weft: [{ kind: 'free', loomLength }] }),
  );
  return { ...plan, pieces };
}
