/** What a figure holds for: these yarns, at this sett, in this weave, on this loom. */
import type { Fibre } from '../measure/sett.ts';
import { type Tex, texOf } from '../measure/yarnCount.ts';
import { endsPerMm, warpRuns } from '../plan/geometry.ts';
import type { Block, Letter, LoomKind, Piece, Plan } from '../plan/plan.ts';

/** A yarn as far as it tells how cloth behaves: neither its colour nor its name. */
export interface YarnKind {
  readonly fibre?: Fibre;
  readonly tex: Tex;
}

export const WEAVES = ['plain'] as const;
export type WeaveName = (typeof WEAVES)[number];

export interface ClothKind {
  /** Every kind once, in no order. */
  readonly warp: readonly YarnKind[];
  readonly weft: readonly YarnKind[];
  /** Ends per mm in the reed. */
  readonly sett: number;
  readonly weave: WeaveName;
  readonly loom: { readonly kind: LoomKind; readonly name?: string };
}

/** The kind of cloth of a plan: the yarns of its warp, floating selvedges apart, and of every weft and hem. */
export function clothKindOf(plan: Plan): ClothKind {
  const { kind, name } = plan.loom;
  const { warp, weft } = lettersOf(plan);
  return {
    warp: kindsOf(plan, warp),
    weft: kindsOf(plan, weft),
    sett: endsPerMm(plan.loom),
    weave: 'plain',
    loom: { kind, ...(name === undefined ? {} : { name }) },
  };
}

/** The yarns of the warp, floating selvedges apart, and of all its wefts, in the order of first use. */
export function lettersOf({ warp, pieces, yarns }: Plan): {
  readonly warp: readonly Letter[];
  readonly weft: readonly Letter[];
} {
  const all = yarns.map((yarn) => yarn.letter);
  return {
    warp: [...new Set(warpRuns(warp.order).map((run) => run.of))],
    weft: [...new Set(pieces.flatMap((it) => lettersOfPiece(it, all)))],
  };
}

function kindsOf(plan: Plan, letters: readonly Letter[]): readonly YarnKind[] {
  const kinds = plan.yarns
    .filter((yarn) => letters.includes(yarn.letter))
    .map(({ fibre, count }): YarnKind => ({ tex: texOf(count), ...(fibre && { fibre }) }));
  return kinds.filter((it, i) => kinds.findIndex((other) => isSameYarn(it, other)) === i);
}

function lettersOfPiece(
  { beginning, ending, weft }: Piece,
  all: readonly Letter[],
): readonly Letter[] {
  const hems = [beginning, ending].flatMap((edge) =>
    edge.kind === 'hemstitch' || edge.yarn === undefined ? [] : [edge.yarn],
  );
  return [...hems, ...weft.flatMap((block) => lettersOfBlock(block, all))];
}

function lettersOfBlock(block: Block, all: readonly Letter[]): readonly Letter[] {
  switch (block.kind) {
    case 'solid':
      return [block.yarn];
    case 'alternation':
      return block.cycle.map((turn) => turn.yarn);
    case 'repeat':
    case 'mirror':
      return block.of.flatMap((it) => lettersOfBlock(it, all));
    case 'free':
      // By eye any yarn of the plan may be thrown.
      return all;
  }
}

/**
 * `same`: what was learnt of the one holds for the other. `near-cloth`: its shrinkages are a guide,
 * nothing that hangs on the loom is. `near`: all of it is a guide. `other`: nothing carries over.
 */
const LIKENESSES = ['same', 'near', 'near-cloth', 'other'] as const;
export type Likeness = (typeof LIKENESSES)[number];

/** Setts and counts that differ by less are the same: dents are counted, labels are rounded. */
const SAME = 0.02;
/** As near as this a yarn or sett is still a guide (ours). */
const NEAR = 0.1;

/**
 * How much alike two cloths are. The same: weave, loom (kind and name), sett within 2 %, and the same
 * yarns in warp and in weft (fibre, count within 2 %). Near: one weave, every yarn of the one has its
 * like in the other (fibre known and the same, count within 10 %), sett within 10 %; on another loom
 * near in its shrinkages only. Anything else (another fibre, an unknown one, another weave) is other.
 */
export function likenessOf(one: ClothKind, other: ClothKind): Likeness {
  if (one.weave !== other.weave) return 'other';
  const sameLoom = one.loom.kind === other.loom.kind && one.loom.name === other.loom.name;
  if (isWithin(one.sett, other.sett, SAME) && matchBy(one, other, isSameYarn)) {
    return sameLoom ? 'same' : 'near-cloth';
  }
  if (!isWithin(one.sett, other.sett, NEAR) || !matchBy(one, other, isNearYarn)) return 'other';
  return sameLoom ? 'near' : 'near-cloth';
}

type Alike = (one: YarnKind, other: YarnKind) => boolean;

function matchBy(one: ClothKind, other: ClothKind, alike: Alike): boolean {
  return covers(one.warp, other.warp, alike) && covers(one.weft, other.weft, alike);
}

/** Each of either side has its like on the other. */
function covers(some: readonly YarnKind[], others: readonly YarnKind[], alike: Alike): boolean {
  const hasLike = (it: YarnKind, among: readonly YarnKind[]) => among.some((one) => alike(it, one));
  return some.every((it) => hasLike(it, others)) && others.every((it) => hasLike(it, some));
}

function isSameYarn(one: YarnKind, other: YarnKind): boolean {
  return one.fibre === other.fibre && isWithin(one.tex, other.tex, SAME);
}

/** Of a yarn whose fibre was not said nobody knows how it washes. */
function isNearYarn(one: YarnKind, other: YarnKind): boolean {
  const known = one.fibre !== undefined && one.fibre !== 'other';
  return known && one.fibre === other.fibre && isWithin(one.tex, other.tex, NEAR);
}

function isWithin(one: number, other: number, share: number): boolean {
  return Math.abs(one - other) <= share * Math.max(one, other);
}
