/** What is known of a cloth from every warp that was measured, and the allowances a plan starts from. */
import type { Allowance, AllowanceName, AllowanceOrigin, Allowances } from '../plan/plan.ts';
import { ALLOWANCE_NAMES } from '../plan/plan.ts';
import { surenessOf } from '../plan/sureness.ts';
import { type ClothKind, type Likeness, likenessOf } from './clothKind.ts';
import { FIGURES, type FigureName } from './figure.ts';
import type { LearntShare, LearntWarp } from './learntWarp.ts';
import { type PieceShare, type PooledShare, pooled } from './pooled.ts';

export type KnownName = FigureName | 'warpTaken';

export interface Knowledge {
  /** From the same cloth, or only from cloth near it. */
  readonly match: 'same' | 'near';
  readonly shares: { readonly [name in KnownName]?: PooledShare };
}

/** What a cloth near the one wanted says of it is this much less sure, as a share (ours). */
const NEAR_SPREAD = 0.01;

/** Of a near cloth on another loom only these carry over: tension and hand do not enter them. */
const OF_CLOTH: readonly KnownName[] = ['shrinkLength', 'shrinkWidth', 'twist'];

/**
 * What the warps measured so far say of a cloth: those of the same cloth where there is any, else
 * those near it (see `likenessOf`), else null. Pieces left out count nowhere.
 */
export function knowledgeOf(cloth: ClothKind, warps: readonly LearntWarp[]): Knowledge | null {
  return (
    knownFrom(warps.filter((it) => likenessOf(cloth, it.cloth) === 'same')) ??
    nearKnowledge(cloth, warps)
  );
}

function knownFrom(warps: readonly LearntWarp[]): Knowledge | null {
  const shares = pooledAll(warps.map((it) => ({ warp: it, names: KNOWN_NAMES })));
  return Object.keys(shares).length === 0 ? null : { match: 'same', shares };
}

function nearKnowledge(cloth: ClothKind, warps: readonly LearntWarp[]): Knowledge | null {
  const near = warps.flatMap((warp) => {
    const names = namesBy(likenessOf(cloth, warp.cloth));
    return names.length === 0 ? [] : [{ warp, names }];
  });
  const shares = Object.fromEntries(
    Object.entries(pooledAll(near)).map(([name, it]) => [name, lessSure(it)]),
  );
  return Object.keys(shares).length === 0 ? null : { match: 'near', shares };
}

function namesBy(likeness: Likeness): readonly KnownName[] {
  if (likeness === 'near') return KNOWN_NAMES;
  return likeness === 'near-cloth' ? OF_CLOTH : [];
}

function lessSure(it: PooledShare): PooledShare {
  return { ...it, spread: Math.hypot(it.spread, NEAR_SPREAD) };
}

const KNOWN_NAMES: readonly KnownName[] = [...FIGURES, 'warpTaken'];

interface Source {
  readonly warp: LearntWarp;
  readonly names: readonly KnownName[];
}

function pooledAll(sources: readonly Source[]): Knowledge['shares'] {
  return Object.fromEntries(
    KNOWN_NAMES.flatMap((name) => {
      const shares = sources.flatMap(({ warp, names }) =>
        names.includes(name) ? sharesOf(warp, name) : [],
      );
      return shares.length === 0 ? [] : [[name, pooled(shares)]];
    }),
  );
}

/** The shares of one figure that a warp gives: one a piece that counts, of the warp taken one in all. */
function sharesOf(warp: LearntWarp, name: KnownName): readonly PieceShare[] {
  const counted = warp.pieces.filter((it) => it.counts === 'in');
  const found: readonly (LearntShare | undefined)[] =
    name === 'warpTaken'
      ? counted.length === 0
        ? []
        : [warp.warpTaken]
      : counted.map((it) => it.shares[name]);
  return found.flatMap((it) => (it === undefined ? [] : [{ warp: warp.warp, ...it }]));
}

/**
 * The allowances a plan starts from: what is learnt takes the place of what is usual; what the
 * weaver typed or a source gave stays. What an earlier cloth taught goes back to `usual` where
 * nothing is known of this one.
 */
export function allowancesFrom(
  knowledge: Knowledge | null,
  allowances: Allowances,
  usual: Allowances,
): Allowances {
  const entries = ALLOWANCE_NAMES.map((name): [AllowanceName, Allowance] => {
    const it = allowances[name];
    if (it.from.kind === 'typed' || it.from.kind === 'source') return [name, it];
    const known = knowledge === null ? null : learntAllowance(knowledge, name);
    return [name, known ?? (it.from.kind === 'washed' ? usual[name] : it)];
  });
  return joined(knowledge, Object.fromEntries(entries) as unknown as Allowances);
}

/** What a plan may hold, so that what was read never makes a plan that is none. */
const RANGES: Readonly<Record<AllowanceName, readonly [number, number]>> = {
  drawIn: [0, 0.5],
  relax: [-0.1, 0.5],
  shrinkWidth: [-0.2, 0.6],
  shrinkLength: [-0.2, 0.6],
  warpTaken: [0, 0.6],
  weftExtra: [0, 0.6],
  twist: [0, 0.5],
};

function learntAllowance({ match, shares }: Knowledge, name: AllowanceName): Allowance | null {
  const known = shares[name];
  return known === undefined ? null : allowanceOf(name, known.share, originOf(known, match));
}

function allowanceOf(name: AllowanceName, share: number, from: AllowanceOrigin): Allowance {
  const [least, most] = RANGES[name];
  return { share: Math.max(least, Math.min(most, share)), from };
}

function originOf(known: PooledShare, match: Knowledge['match']): AllowanceOrigin {
  const { pieces, warps } = known;
  const spread = Math.min(1, known.spread);
  return { kind: 'washed', pieces, warps, spread, ...(match === 'near' ? { match } : {}) };
}

/**
 * Two shares come to the washed size together, and the size itself is what was read most surely: so
 * the second is what takes the first to it. In the length only where nobody measured off the loom;
 * in the width always, for the reed is counted and a width off the loom is not that at the fell.
 */
function joined(knowledge: Knowledge | null, allowances: Allowances): Allowances {
  if (knowledge === null) return allowances;
  const { shares, match } = knowledge;
  const { relax, drawIn, shrinkLength, shrinkWidth } = allowances;
  const length = shares.shrinkLength === undefined ? shares.lengthLoss : undefined;
  return {
    ...allowances,
    shrinkLength: restOf('shrinkLength', length, relax, shrinkLength, match),
    shrinkWidth: restOf('shrinkWidth', shares.widthLoss, drawIn, shrinkWidth, match),
  };
}

/** The second of two losses that come to `whole` together; as it was where that is not open. */
function restOf(
  name: AllowanceName,
  whole: PooledShare | undefined,
  first: Allowance,
  second: Allowance,
  match: Knowledge['match'],
): Allowance {
  if (whole === undefined || !isOpen(second)) return second;
  const share = 1 - (1 - whole.share) / (1 - first.share);
  if (second.from.kind === 'washed') return allowanceOf(name, share, second.from);
  const spread = restSpread(whole, first, 1 - share);
  return allowanceOf(name, share, originOf({ ...whole, spread }, match));
}

/** With the first's own spread it comes to that of the whole, each as a part of what is left. */
function restSpread(whole: PooledShare, first: Allowance, left: number): number {
  const ofFirst = surenessOf(first).spread / (1 - first.share);
  const ofWhole = whole.spread / (1 - whole.share);
  return left * Math.sqrt(Math.max(0, ofWhole ** 2 - ofFirst ** 2));
}

function isOpen({ from }: Allowance): boolean {
  return from.kind === 'washed' || from.kind === 'practice';
}
