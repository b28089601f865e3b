/**
 * What one warp taught, as it is kept: it outlives the warp it came from. Made anew from the log
 * whenever a reading changes; read back through `decodeLearntWarp`.
 */
import * as v from 'valibot';
import type { Mm } from '../measure/length.ts';
import { fail, ok, type Result } from '../measure/result.ts';
import { FIBRES } from '../measure/sett.ts';
import { MOST_PROBLEMS, problemOf } from '../plan/checkPlan.ts';
import { LIMITS } from '../plan/limits.ts';
import { LOOM_KINDS } from '../plan/plan.ts';
import type { Problem } from '../plan/problems.ts';
import { type ClothKind, clothKindOf, WEAVES, type YarnKind } from './clothKind.ts';
import { FIGURES, type Figure, type FigureName } from './figure.ts';
import { figuresOf, type Woven } from './figures.ts';
import type { Size } from './sizes.ts';

/** A share as it was learnt, with the standard deviation its readings leave open. */
export interface LearntShare {
  readonly share: number;
  readonly error: number;
}

export type LearntShares = { readonly [name in FigureName]?: LearntShare };

export interface LearntPiece {
  readonly name: string;
  readonly counts: 'in' | 'out';
  readonly shares: LearntShares;
  /** Picks and loom length, where that was read: what the beat really was. */
  readonly picks: number;
  readonly loomLength?: Size;
}

const LEARNT_VERSION = 1;

export interface LearntWarp {
  readonly version: typeof LEARNT_VERSION;
  /** The id of its warp. */
  readonly warp: string;
  readonly name: string;
  readonly cloth: ClothKind;
  readonly pieces: readonly LearntPiece[];
  readonly warpTaken?: LearntShare;
}

/** What a warp taught, or null while nothing of it was read. */
export function learntOf(warp: string, woven: Woven): LearntWarp | null {
  const { plan } = woven.course;
  const { pieces, warpTaken } = figuresOf(woven);
  const taken = readShare(warpTaken);
  const learnt = pieces.map(({ piece, counts, sizes, figures }) => ({
    name: plan.pieces[piece]?.name ?? '',
    counts,
    shares: Object.fromEntries(
      FIGURES.flatMap((name) => {
        const share = readShare(figures[name]);
        return share === null ? [] : [[name, share]];
      }),
    ),
    picks: wovenPicks(woven, piece),
    ...(sizes.loomLength === null ? {} : { loomLength: sizes.loomLength }),
  }));
  if (taken === null && learnt.every((it) => Object.keys(it.shares).length === 0)) return null;
  return {
    version: LEARNT_VERSION,
    warp,
    name: plan.name,
    cloth: clothKindOf(plan),
    pieces: learnt,
    ...(taken === null ? {} : { warpTaken: taken }),
  };
}

function readShare(figure: Figure): LearntShare | null {
  return figure.kind === 'read' ? { share: figure.share, error: figure.error } : null;
}

/** Picks of a piece that are in the cloth: a warp may have been cut off early. */
function wovenPicks({ course, picks }: Woven, piece: number): number {
  const { firstPick, picks: own } = course.pieces[piece] ?? { firstPick: 0, picks: 0 };
  return Math.max(0, Math.min(own, picks - firstPick));
}

const text = v.pipe(v.string(), v.maxLength(LIMITS.name));
const size = (least: number, most: number) =>
  v.pipe(v.number(), v.minValue(least), v.maxValue(most));
const share = v.strictObject({ share: size(-1, 1), error: size(0, 10) });
const yarnKind: v.GenericSchema<unknown, YarnKind> = v.strictObject({
  tex: size(0.001, 1e6),
  fibre: v.exactOptional(v.picklist(FIBRES)),
});
const yarnKinds = v.pipe(v.array(yarnKind), v.minLength(1), v.maxLength(LIMITS.yarns));
const shares: v.GenericSchema<unknown, LearntShares> = v.strictObject(
  Object.fromEntries(FIGURES.map((name) => [name, v.exactOptional(share)])),
);
const positive: v.GenericSchema<unknown, Mm> = size(0.001, LIMITS.length);

const learntWarp: v.GenericSchema<unknown, LearntWarp> = v.strictObject({
  version: v.literal(LEARNT_VERSION),
  warp: v.pipe(v.string(), v.minLength(1)),
  name: text,
  cloth: v.strictObject({
    warp: yarnKinds,
    weft: yarnKinds,
    sett: size(1e-4, 100),
    weave: v.picklist(WEAVES),
    loom: v.strictObject({ kind: v.picklist(LOOM_KINDS), name: v.exactOptional(text) }),
  }),
  pieces: v.pipe(
    v.array(
      v.strictObject({
        name: text,
        counts: v.picklist(['in', 'out']),
        shares,
        picks: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(LIMITS.totalPicks)),
        loomLength: v.exactOptional(v.strictObject({ mm: positive, sd: size(0, LIMITS.length) })),
      }),
    ),
    v.minLength(1),
    v.maxLength(LIMITS.pieces),
  ),
  warpTaken: v.exactOptional(share),
});

/** Turns unknown input into what a warp taught, or into everything that is wrong with it. */
export function decodeLearntWarp(input: unknown): Result<LearntWarp, readonly Problem[]> {
  const parsed = v.safeParse(learntWarp, input, { abortPipeEarly: true });
  return parsed.success
    ? ok(parsed.output)
    : fail(parsed.issues.slice(0, MOST_PROBLEMS).map(problemOf));
}
