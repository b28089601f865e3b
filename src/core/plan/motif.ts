/**
 * A motif: a stretch of weft kept under a name, with the yarns, sett and beat it was woven with, to
 * be woven again or planned with.
 */
import * as v from 'valibot';
import type { Mm } from '../measure/length.ts';
import { fail, ok, type Result } from '../measure/result.ts';
import type { Fibre } from '../measure/sett.ts';
import type { YarnCount } from '../measure/yarnCount.ts';
import { layWeft, plannedLengthOf } from './blocks.ts';
import { checkPlan, MOST_PROBLEMS, problem, problemOf } from './checkPlan.ts';
import { LIMITS } from './limits.ts';
import {
  type Block,
  type Letter,
  PLAN_FORMAT,
  PLAN_VERSION,
  type Plan,
  type Stripe,
} from './plan.ts';
import type { Problem } from './problems.ts';
import { motifParts, shelfParts } from './schema.ts';

export interface Motif {
  readonly id: string;
  readonly name: string;
  /** ISO 8601, UTC. */
  readonly madeAt: string;
  readonly yarns: readonly MotifYarn[];
  /** Ends per millimetre in the reed it was woven in. */
  readonly endsPerMm: number;
  /** The warp it was woven on. */
  readonly warp: readonly Stripe[];
  /** In picks and turns; no part of it is by eye. */
  readonly blocks: readonly Block[];
  /** The cloth it was found in; absent where it was made from another motif elsewhere. */
  readonly from?: MotifOrigin;
}

/** Names, as they were when the motif was kept: the warp may be gone since. */
export interface MotifOrigin {
  readonly warp: string;
  readonly piece: string;
}

export interface MotifYarn {
  readonly letter: Letter;
  readonly name: string;
  /** `#rrggbb` */
  readonly colour: string;
  readonly fibre?: Fibre;
  readonly count: YarnCount;
  /** Distance from pick to pick on the loom, as it was woven. */
  readonly pickSpacing: Mm;
  /** The yarn of the shelf it was. */
  readonly shelf?: string;
}

const motifShape: v.GenericSchema<unknown, Motif> = v.strictObject({
  id: shelfParts.text,
  name: shelfParts.text,
  madeAt: v.pipe(v.string(), v.isoTimestamp()),
  yarns: v.pipe(
    v.array(
      v.strictObject({
        letter: motifParts.letter,
        ...shelfParts.yarnKind,
        pickSpacing: motifParts.spacing,
        shelf: v.exactOptional(shelfParts.text),
      }),
    ),
    v.minLength(1),
    v.maxLength(LIMITS.yarns),
  ),
  endsPerMm: v.pipe(v.number(), v.minValue(0.005), v.maxValue(5)),
  warp: v.pipe(v.array(motifParts.stripe), v.minLength(1), v.maxLength(LIMITS.blocks)),
  blocks: v.pipe(v.array(motifParts.block), v.minLength(1), v.maxLength(LIMITS.blocks)),
  from: v.exactOptional(v.strictObject({ warp: shelfParts.text, piece: shelfParts.text })),
});

/** Turns unknown input into a motif, or into everything that is wrong with it. */
export function decodeMotif(input: unknown): Result<Motif, readonly Problem[]> {
  const parsed = v.safeParse(motifShape, input, { abortPipeEarly: true });
  if (!parsed.success) return fail(parsed.issues.slice(0, MOST_PROBLEMS).map(problemOf));
  const motif = parsed.output;
  const found = [...checkMeaning(motif), ...motif.blocks.flatMap(checkNotFree)];
  return found.length > 0 ? fail(found) : ok(motif);
}

/** What would be wrong with a plan that weaves it is wrong with the motif. */
function checkMeaning(motif: Motif): readonly Problem[] {
  const checked = checkPlan(planOfMotif(motif));
  if (checked.ok) return [];
  return checked.problem.map((it) => ({ ...it, path: ownPath(it.path) }));
}

function ownPath(path: string): string {
  return path.replace(/^pieces\[0\]\.weft/, 'blocks').replace(/^warp\.order/, 'warp');
}

function checkNotFree(block: Block, i: number): readonly Problem[] {
  return block.kind === 'free' ? [problem(`blocks[${i}].kind`, 'not-one-of', 'free', WOVEN)] : [];
}

const WOVEN = 'solid, alternation, repeat, mirror';

const none = { share: 0, from: { kind: 'practice' } } as const;

/** A plan of one piece that weaves the motif once on its warp, to lay it, measure it and paint it. */
export function planOfMotif(motif: Motif): Plan {
  const [first] = motif.yarns;
  const edge = { kind: 'plain', washedAllowance: 0 } as const;
  return {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    name: motif.name,
    units: 'metric',
    loom: {
      kind: 'shaft',
      dents: { count: motif.endsPerMm * 100, per: '10cm' },
      endsPerDent: 1,
      weavingWidth: LIMITS.length,
      frontTieOn: 0,
      backWaste: 0,
      weavingDepth: 100,
    },
    yarns: motif.yarns,
    warp: { order: motif.warp, viewpoint: 'front' },
    weaving: { ...WEAVING, pickSpacing: first?.pickSpacing ?? 1 },
    allowances: {
      drawIn: none,
      relax: none,
      shrinkWidth: none,
      shrinkLength: none,
      warpTaken: none,
      weftExtra: none,
      twist: none,
    },
    pieces: [
      { name: motif.name, startShed: 'odd', beginning: edge, ending: edge, weft: motif.blocks },
    ],
  };
}

const WEAVING = {
  hand: 'right',
  workingSide: 'right',
  carryLimit: 25,
  tailWidths: 3,
  picksBeforeStitching: 4,
  stitchGroup: 4,
  newYarnComesUp: 'under',
  outerFringes: 'own-warp',
  cuttingAllowance: 0,
} as const;

/** How long the motif was on the loom, woven once. */
export function motifLength(motif: Motif): Mm {
  return layWeft(planOfMotif(motif), 0).reduce((sum, laid) => sum + plannedLengthOf(laid), 0);
}
