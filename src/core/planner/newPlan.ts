/** Where a plan starts: a small weavable one with the defaults of the trade, or one piece more of a kind. */
import { loomLengthFor, reedWidthFor } from '../measure/clothState.ts';
import type { Mm, Units } from '../measure/length.ts';
import { MM_PER_INCH } from '../measure/length.ts';
import { endsPerMm, sharesOf } from '../plan/geometry.ts';
import { LIMITS } from '../plan/limits.ts';
import type { Allowances, Loom, LoomKind, Piece, Plan, Weaving, Yarn } from '../plan/plan.ts';
import { PLAN_FORMAT, PLAN_VERSION, SHED_WORDS } from '../plan/plan.ts';

/**
 * A plan to begin with: one yarn, one plain piece of towel size with turned hems. It passes
 * `checkPlan`, so every number is in sight from the first touch. All its figures are common practice
 * without a source, as their origins say, unless the weaver's own allowances are given; sizes are
 * round in the units asked for.
 */
export function newPlan(
  units: Units,
  loomKind: LoomKind,
  allowances: Allowances = USUAL_ALLOWANCES,
): Plan {
  const finished = inOrMm(units, 28, 700);
  const plan = { ...frame(units, loomKind), allowances };
  const shares = sharesOf(plan);
  const ends = reedWidthFor(inOrMm(units, 20, 500), shares) * endsPerMm(plan.loom);
  const hem = { kind: 'hem', washedAllowance: inOrMm(units, 1.5, 40) } as const;
  const extent = { kind: 'length', loomLength: loomLengthFor(finished, shares) } as const;
  const piece: Piece = {
    name: 'Piece 1',
    startShed: SHED_WORDS[loomKind][0],
    wish: { state: 'finished', length: finished },
    beginning: hem,
    ending: hem,
    weft: [{ kind: 'solid', yarn: 'A', extent }],
  };
  // Even, because direct warping lays ends by loops of two.
  const order = [{ kind: 'solid', yarn: 'A', ends: 2 * Math.round(ends / 2) }] as const;
  return { ...plan, warp: { ...plan.warp, order }, pieces: [piece] };
}

/** All but the warp order and the pieces. */
function frame(units: Units, loomKind: LoomKind): Plan {
  const end = loomKind === 'rigid-heddle' ? ({ firstEnd: 'slot' } as const) : {};
  return {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    name: 'New warp',
    units,
    loom: startingLoom(units, loomKind),
    yarns: [startingYarn(loomKind)],
    warp: { order: [], ...end, viewpoint: 'front' },
    weaving: startingWeaving(units, loomKind),
    allowances: USUAL_ALLOWANCES,
    pieces: [],
  };
}

/** Each unit has a round figure of its own: nobody plans for 508 mm. */
function inOrMm(units: Units, inches: number, mm: Mm): Mm {
  return units === 'inch' ? inches * MM_PER_INCH : mm;
}

const practice = (share: number) => ({ share, from: { kind: 'practice' as const } });

/**
 * Common practice, no source: draw-in 3 to 7 %, washed cotton 6 to 11 % each way, take-up 7 to 12 % of
 * the cloth, weft extra 5 to 10 %, a twisted fringe 10 to 15 %.
 */
export const USUAL_ALLOWANCES: Allowances = {
  drawIn: practice(0.05),
  relax: practice(0.03),
  shrinkWidth: practice(0.08),
  shrinkLength: practice(0.08),
  warpTaken: practice(0.1),
  weftExtra: practice(0.07),
  twist: practice(0.12),
};

/** Loom waste by practice: rigid heddle 18 to 24 in, floor loom 27 to 36 in, both ends together. */
function startingLoom(units: Units, kind: LoomKind): Loom {
  const reed = (perInch: number, per10cm: number) =>
    units === 'inch'
      ? ({ count: perInch, per: 'inch' } as const)
      : ({ count: per10cm, per: '10cm' } as const);
  if (kind === 'rigid-heddle') {
    return {
      kind,
      dents: reed(12.5, 50),
      endsPerDent: 1,
      weavingWidth: inOrMm(units, 24, 600),
      frontTieOn: inOrMm(units, 8, 200),
      backWaste: inOrMm(units, 12, 300),
      weavingDepth: inOrMm(units, 4, 100),
    };
  }
  return {
    kind,
    dents: reed(10, 40),
    endsPerDent: 2,
    weavingWidth: inOrMm(units, 36, 900),
    frontTieOn: inOrMm(units, 10, 250),
    backWaste: inOrMm(units, 20, 500),
    weavingDepth: inOrMm(units, 5, 130),
  };
}

/** A cotton that suits the heddle: 8/4 is set at 10 to 15 ends to the inch, 8/2 at 18 to 24. */
function startingYarn(kind: LoomKind): Yarn {
  const plies = kind === 'rigid-heddle' ? 4 : 2;
  return {
    letter: 'A',
    name: 'natural',
    colour: '#efe6d2',
    fibre: 'cotton',
    count: { system: 'cottonCount', number: 8, plies },
  };
}

function startingWeaving(units: Units, kind: LoomKind): Weaving {
  const picks = kind === 'rigid-heddle' ? inOrMm(units, 1 / 10, 2.5) : inOrMm(units, 1 / 18, 1.4);
  return {
    hand: 'right',
    workingSide: 'right',
    pickSpacing: picks,
    carryLimit: inOrMm(units, 1, 25),
    tailWidths: 3,
    picksBeforeStitching: 4,
    stitchGroup: 4,
    newYarnComesUp: 'under',
    outerFringes: 'own-warp',
    cuttingAllowance: 0,
  };
}

/** The plan with a copy of one piece right after it, under the next free number: Towel 1 → Towel 2. */
export function copyOfPiece(plan: Plan, piece: number): Plan {
  const it = plan.pieces[piece];
  if (it === undefined) throw new Error(`copyOfPiece: wanted a piece of the plan, got ${piece}`);
  const copy: Piece = { ...it, name: nextName(it.name, plan.pieces) };
  return { ...plan, pieces: plan.pieces.toSpliced(piece + 1, 0, copy) };
}

function nextName(name: string, pieces: readonly Piece[]): string {
  const [, stem = name, number = '1'] = /^(.*?)\s+(\d{1,4})$/.exec(name) ?? [];
  const taken = new Set(pieces.map((piece) => piece.name));
  for (let n = Number(number) + 1; ; n++) {
    const next = `${stem.slice(0, LIMITS.name - 5).trimEnd()} ${n}`;
    if (!taken.has(next)) return next;
  }
}
