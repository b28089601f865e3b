/**
 * Aiming anew: as the beat becomes known, blocks that keep their length get other numbers of picks,
 * in whole turns and with the parity of every run kept, so that colours close and shuttles rest
 * where the plan has them (design §4 "Keeping lengths or picks"). What is woven never changes.
 *
 * The piece is steered as a whole: what the woven part missed is shared among the blocks to come,
 * and the rounding of one block is made good by the next, so that the last fell lies where the plan
 * has it. Hems keep their own length.
 */
import type { Mm } from '../measure/length.ts';
import { type LaidBlock, picksOf, plannedLengthOf } from '../plan/blocks.ts';
import type { BlockPicks } from './adjustments.ts';
import type { Course, CourseBlock, CoursePiece } from './course.ts';
import type { Keep } from './events.ts';
import { layPiece } from './layPiece.ts';
import { loomLengthAt } from './pickAt.ts';

export interface Keeping {
  /** What the weaver chose for single blocks, by `blockKey`. */
  readonly blocks: ReadonlyMap<string, Keep>;
  /** What the second halves of mirrors match, by piece. */
  readonly mirrors: ReadonlyMap<number, Keep>;
}

export const blockKey = (piece: number, block: number) => `${piece}/${block}`;

/** What a block keeps: as chosen, else its picks where a hand set them, else as it was planned. */
export function keptBy(course: Course, block: CourseBlock, keeping: Keeping): Keep {
  const chosen = keeping.blocks.get(blockKey(block.piece, block.ofPiece));
  if (chosen !== undefined) return chosen;
  const set = lastSet(course, block);
  if (set !== undefined && set.aimed === undefined) return 'picks';
  return block.laid.plannedLength === null ? 'picks' : 'length';
}

function lastSet(course: Course, block: CourseBlock): BlockPicks | undefined {
  return course.adjustments.blocks.findLast(
    (it) => it.piece === block.piece && it.block === block.ofPiece,
  );
}

/** New picks of the blocks from here on, at the beat now believed; only those that change. */
export function aimedAnew(course: Course, pick: number, keeping: Keeping): readonly BlockPicks[] {
  return course.pieces.flatMap((piece) =>
    piece.firstPick + piece.picks <= pick ? [] : aimedPiece(course, piece, pick, keeping),
  );
}

/** The second halves of mirrors alone, where a hand has changed their first halves. */
export function mirrorsMatched(
  course: Course,
  pick: number,
  keeping: Keeping,
): readonly BlockPicks[] {
  return course.pieces.flatMap((piece) => {
    const aims = aimsOf(course, piece, pick, keeping);
    return aims
      .filter((it) => it.partner !== null && changedByHand(course, it.partner.block))
      .flatMap((it) => changeTo(it, matchedPicks(it)));
  });
}

function changedByHand(course: Course, block: CourseBlock): boolean {
  const set = lastSet(course, block);
  return set !== undefined && set.aimed === undefined;
}

/** One block as it is aimed. */
interface Aim {
  readonly block: CourseBlock;
  readonly keep: Keep;
  /** The plan's own block, before anything was adjusted. */
  readonly base: LaidBlock;
  readonly state: 'woven' | 'here' | 'toCome';
  /** Picks of it in the cloth, and their loom length. */
  readonly woven: number;
  readonly wovenLength: Mm;
  /** Loom length it was planned to have. */
  readonly wanted: Mm;
  /** Millimetres a pick of a yarn index is believed to take from here on. */
  readonly spacing: (yarn: number) => Mm;
  /** For a block of a second half: the one it mirrors, and what it matches of it. */
  readonly partner: Partner | null;
}

interface Partner {
  readonly block: CourseBlock;
  readonly base: LaidBlock;
  readonly match: Keep;
  readonly isWoven: boolean;
}

function aimsOf(
  course: Course,
  piece: CoursePiece,
  pick: number,
  keeping: Keeping,
): readonly Aim[] {
  const bases = layPiece(course.plan, piece.index);
  const blocks = course.blocks.slice(piece.firstBlock, piece.firstBlock + piece.blocks);
  return blocks.flatMap((block, i) => {
    const base = bases[i];
    if (base === undefined) return [];
    const end = block.firstPick + block.picks;
    const state = end <= pick ? 'woven' : block.firstPick < pick ? 'here' : 'toCome';
    const woven = Math.max(0, Math.min(block.picks, pick - block.firstPick));
    return [
      {
        block,
        base,
        keep: keptBy(course, block, keeping),
        state,
        woven,
        wovenLength:
          state === 'here'
            ? loomLengthAt(course, pick) - block.loomStart
            : state === 'woven'
              ? block.loomLength
              : 0,
        wanted: base.plannedLength ?? plannedLengthOf(base),
        spacing: (yarn: number) =>
          (base.spacings[yarn] ?? 0) * (course.belief.yarns[yarn] ?? 1) * course.belief.slope,
        partner: partnerOf(course, blocks, bases, i, pick, keeping),
      } satisfies Aim,
    ];
  });
}

/** The block of the first half that a mirrored block is the way back of. */
function partnerOf(
  course: Course,
  blocks: readonly CourseBlock[],
  bases: readonly LaidBlock[],
  at: number,
  pick: number,
  keeping: Keeping,
): Partner | null {
  const laid = blocks[at]?.laid;
  if (laid === undefined || !laid.mirrored) return null;
  for (let i = at - 1; i >= 0; i--) {
    const [block, base] = [blocks[i], bases[i]];
    if (block === undefined || base === undefined || block.laid.mirrored) continue;
    if (block.laid.source !== laid.source || !samePasses(block.laid, laid)) continue;
    const match = keeping.mirrors.get(block.piece) ?? keptBy(course, block, keeping);
    return { block, base, match, isWoven: block.firstPick + block.picks <= pick };
  }
  return null;
}

function samePasses(a: LaidBlock, b: LaidBlock): boolean {
  return (
    a.passes.length === b.passes.length &&
    a.passes.every((pass, i) => pass.index === b.passes[i]?.index)
  );
}

function aimedPiece(
  course: Course,
  piece: CoursePiece,
  pick: number,
  keeping: Keeping,
): readonly BlockPicks[] {
  const aims = aimsOf(course, piece, pick, keeping);
  const fixed = new Map<Aim, number>();
  for (const aim of aims) {
    const picks = fixedPicks(aim);
    if (picks !== null) fixed.set(aim, picks);
  }
  const steered = aims.filter((it) => !fixed.has(it));
  const left = lengthLeft(aims, fixed);
  const wished = steered.reduce((sum, it) => sum + toWeave(it), 0);
  const scale = wished > 0 ? Math.min(MOST_STRETCH, Math.max(LEAST_STRETCH, left / wished)) : 1;
  return [...[...fixed].flatMap(([aim, picks]) => changeTo(aim, picks)), ...steer(steered, scale)];
}

/** What was missed is never made good by more than this of the blocks to come (ours). */
const LEAST_STRETCH = 0.5;
const MOST_STRETCH = 1.5;

/** Picks of a block that what the others came to does not move; null for one that is steered. */
function fixedPicks(aim: Aim): number | null {
  if (aim.state === 'woven') return aim.block.picks;
  if (aim.partner?.isWoven) return matchedPicks(aim);
  if (aim.keep === 'picks') return aim.block.picks;
  const isHem = aim.base.block === null;
  return isHem ? nearestPicks(aim, aim.wanted) : null;
}

/** Length still to be had from the steered blocks, so that those that keep their length come out. */
function lengthLeft(aims: readonly Aim[], fixed: ReadonlyMap<Aim, number>): Mm {
  return aims
    .filter((it) => it.keep === 'length')
    .reduce((sum, aim) => {
      const picks = fixed.get(aim);
      const had = picks === undefined ? aim.wovenLength : lengthWith(aim, picks);
      return sum + aim.wanted - had;
    }, 0);
}

/** Of the length it was planned to have, what is not woven yet. */
function toWeave({ wanted, wovenLength }: Aim): Mm {
  return Math.max(0, wanted - wovenLength);
}

/**
 * Each block takes its share and what rounding left over from those before it. The second half of a
 * mirror whose first half is still to be woven does as that does, pick for pick.
 */
function steer(aims: readonly Aim[], scale: number): readonly BlockPicks[] {
  const given = new Map<number, number>();
  let over = 0;
  return aims.flatMap((aim) => {
    const wanted = aim.wovenLength + scale * toWeave(aim) + over;
    const first = given.get(aim.partner?.block.ofPiece ?? -1);
    const picks = first === undefined ? nearestPicks(aim, wanted) : asPartner(aim, first);
    given.set(aim.block.ofPiece, picks);
    over = wanted - lengthWith(aim, picks);
    return changeTo(aim, picks);
  });
}

function changeTo({ block, state }: Aim, picks: number): readonly BlockPicks[] {
  if (state === 'woven' || picks === block.picks) return [];
  return [{ piece: block.piece, block: block.ofPiece, picks, aimed: true }];
}

/** What the first half became, in its picks or in its length. */
function matchedPicks(aim: Aim): number {
  const { partner, base } = aim;
  if (partner === null) return aim.block.picks;
  if (partner.match === 'picks') return asPartner(aim, partner.block.picks);
  const share = plannedLengthOf(base) / (plannedLengthOf(partner.base) || 1);
  return nearestPicks(aim, partner.block.loomLength * share);
}

/** As many picks more or fewer than planned as the block of the first half has. */
function asPartner({ partner, base, woven }: Aim, picks: number): number {
  const change = partner === null ? 0 : picks - picksOf(partner.base);
  return Math.max(woven, 0, picksOf(base) + change);
}

/** Loom length of the block with so many picks, none fewer than are woven. */
function lengthWith(aim: Aim, picks: number): Mm {
  if (picks <= aim.woven) return aim.wovenLength;
  let length = aim.wovenLength;
  let from = 0;
  for (let k = 0; from < picks; k++) {
    const { yarn, picks: all } = openTurn(aim.base, k, picks - from);
    const to = Math.min(picks, from + all);
    length += Math.max(0, to - Math.max(from, aim.woven)) * aim.spacing(yarn);
    from = to;
  }
  return length;
}

/** The k-th turn of a block that goes on as long as it must; a solid is one endless turn. */
function openTurn(laid: LaidBlock, k: number, left: number) {
  const { yarns, picks } = laid.period;
  const at = (laid.firstTurn + k) % yarns.length;
  return { yarn: yarns[at] ?? 0, picks: yarns.length === 1 ? left : Math.max(1, picks[at] ?? 1) };
}

/** The permitted number of picks that brings the block nearest to a length; ties go down. */
function nearestPicks(aim: Aim, wanted: Mm): number {
  const { from, step } = permitted(aim);
  const stepLength = Math.max(1e-9, lengthWith(aim, from + step) - lengthWith(aim, from));
  const start = lengthWith(aim, from);
  const steps = Math.max(0, Math.ceil((wanted - start) / stepLength - 0.5 - 1e-9));
  return from + steps * step;
}

/** Picks a block may have: `from`, and any number of steps more. */
function permitted({ base, woven }: Aim): { readonly from: number; readonly step: number } {
  const step = stepOf(base);
  const planned = picksOf(base);
  const least = Math.max(1, woven);
  const below = Math.floor((planned - least) / step);
  return { from: planned - below * step, step };
}

/** The smallest change that keeps the closing yarn and, for every yarn, the parity of its picks. */
export function stepOf({ period, block }: LaidBlock): number {
  if (period.yarns.length === 1) {
    const free = block?.extent.kind === 'length' && block.extent.parity === 'any';
    return free ? 1 : 2;
  }
  const sums = new Map<number, number>();
  for (const [i, yarn] of period.yarns.entries()) {
    sums.set(yarn, (sums.get(yarn) ?? 0) + (period.picks[i] ?? 0));
  }
  const all = [...sums.values()];
  const total = all.reduce((sum, picks) => sum + picks, 0);
  return all.every((picks) => picks % 2 === 0) ? total : 2 * total;
}
