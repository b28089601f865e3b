/** Yarn: what warp and weft need against what is on hand, and how many pieces more it allows. */
import { addUses } from '../../bench/left/weftTally.ts';
import { mostThatFits } from '../../bench/search.ts';
import type { Mm } from '../../measure/length.ts';
import type { Grams } from '../../measure/mass.ts';
import { lengthOf, massOf, texOf } from '../../measure/yarnCount.ts';
import { onceAlike } from '../../plan/alike.ts';
import type { Plan, Yarn } from '../../plan/plan.ts';
import { furtherGaps, type WarpParts, warpLengthOf } from '../../plan/warpLength.ts';
import type { Amount, FurtherSheet, PieceSheet, YarnSheet } from '../sheet.ts';

/** A sum of exact lengths strays by less than this; it must not make a yarn short. */
const TOLERANCE: Grams = 1e-6;

/** One sheet a yarn; `ends` of each yarn index with floating selvedges, over the `wound` length. */
export function yarnSheets(
  plan: Plan,
  ends: readonly number[],
  wound: Mm,
  pieces: readonly PieceSheet[],
): readonly YarnSheet[] {
  return plan.yarns.map((yarn, i) => {
    const tex = texOf(yarn.count);
    const weft = addUses(
      tex,
      pieces.map((piece) => piece.weft[i]).filter((it) => it !== undefined),
    );
    const own = ends[i] ?? 0;
    const warp = { ends: own, ...amount(yarn, own * wound) };
    const total = amount(yarn, warp.length + weft.length);
    const onHand = onHandOf(yarn);
    const left = onHand === null ? null : less(onHand, total);
    return { yarn: i, warp, weft, total, onHand, left, verdict: verdictOf(total, left) };
  });
}

function amount(yarn: Yarn, length: Mm): Amount {
  return { length, grams: massOf(length, texOf(yarn.count)) };
}

function onHandOf({ onHand, count }: Yarn): Amount | null {
  return onHand === undefined ? null : { length: lengthOf(onHand, texOf(count)), grams: onHand };
}

function less(one: Amount, other: Amount): Amount {
  return { length: one.length - other.length, grams: one.grams - other.grams };
}

function verdictOf(total: Amount, left: Amount | null): YarnSheet['verdict'] {
  if (total.length === 0) return 'unused';
  if (left === null) return 'unknown';
  return left.grams < -TOLERANCE ? 'short' : 'enough';
}

/** More than anybody weaves on one warp; the search ends there. */
const MOST_FURTHER = 999;

/** How many pieces more like each one the yarn on hand allows, woven after the last (design §4). */
export function furtherSheets(
  plan: Plan,
  pieces: readonly PieceSheet[],
  yarns: readonly YarnSheet[],
): readonly FurtherSheet[] {
  const loomLength = pieces.reduce((sum, piece) => sum + piece.loomLength, 0);
  const gaps = pieces.reduce((sum, piece) => sum + piece.gapAfter, 0);
  // More like one piece are as many as like another that is woven alike.
  const found = onceAlike(plan.pieces, (_, piece) => {
    const like = pieces[piece];
    if (like === undefined) throw new Error(`wanted a sheet of every piece, got ${pieces.length}`);
    return furtherLike(plan, { loomLength, gaps }, yarns, like);
  });
  return found.map((it, piece) => ({ ...it, piece }));
}

/** Of all pieces of the plan together. */
type Lengths = Pick<WarpParts, 'loomLength' | 'gaps'>;

function furtherLike(
  plan: Plan,
  lengths: Lengths,
  yarns: readonly YarnSheet[],
  like: PieceSheet,
): FurtherSheet {
  const woundWith = woundWithMore(plan, lengths, like);
  const takes = (it: YarnSheet) => it.warp.ends > 0 || (like.weft[it.yarn]?.length ?? 0) > 0;
  const unweighed = yarns.filter((it) => it.onHand === null && takes(it)).map((it) => it.yarn);
  let more: number | null = null;
  let limitedBy: number | null = null;
  for (const it of yarns) {
    const yarn = plan.yarns[it.yarn];
    if (it.onHand === null || it.verdict === 'unused' || yarn === undefined) continue;
    const onHand = it.onHand.grams;
    const fits = (k: number) => needWith(yarn, it, like, woundWith(k), k) <= onHand + TOLERANCE;
    const allows = takes(it) || !fits(0) ? mostThatFits(MOST_FURTHER, fits) : MOST_FURTHER;
    if (allows >= (more ?? MOST_FURTHER)) continue;
    more = allows;
    limitedBy = it.yarn;
  }
  return { piece: like.piece, more, limitedBy, unweighed };
}

function needWith(yarn: Yarn, it: YarnSheet, like: PieceSheet, wound: Mm, more: number): Grams {
  const weft = it.weft.length + more * (like.weft[it.yarn]?.length ?? 0);
  return massOf(it.warp.ends * wound + weft, texOf(yarn.count));
}

/** The wound length with so many pieces more like one of the plan after the last. */
function woundWithMore(
  plan: Plan,
  { loomLength, gaps }: Lengths,
  like: PieceSheet,
): (more: number) => Mm {
  const [first, last, same] = [plan.pieces[0], plan.pieces.at(-1), plan.pieces[like.piece]];
  if (first === undefined || last === undefined || same === undefined) {
    throw new Error(`wanted a piece of the plan, got ${like.piece}`);
  }
  return (more) =>
    warpLengthOf(plan, {
      loomLength: loomLength + more * like.loomLength,
      gaps: gaps + furtherGaps(plan, like.piece, more),
      first: first.beginning,
      last: more === 0 ? last.ending : same.ending,
    }).wound;
}
