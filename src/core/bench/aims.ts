/** One block as it is aimed: what it keeps, what is woven of it, and the picks it may have. */
import type { Mm } from '../measure/length.ts';
import { type LaidBlock, picksOf, plannedLengthOf } from '../plan/blocks.ts';
import { mayHaveAnyParity } from '../plan/parity.ts';
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

/** One name for a block counted in its piece, under which `Keeping` holds what was chosen for it. */
export const blockKey = (piece: number, block: number) => `${piece}/${block}`;

/** What a block keeps: as chosen, else its picks where a hand set them, else as it was planned. */
export function keptBy(course: Course, block: CourseBlock, keeping: Keeping): Keep {
  if (block.laid.role === 'free') return 'picks';
  const chosen = keeping.blocks.get(blockKey(block.piece, block.ofPiece));
  if (chosen !== undefined) return chosen;
  const set = lastSet(course, block);
  if (set !== undefined && set.aimed === undefined) return 'picks';
  return block.laid.plannedLength === null ? 'picks' : 'length';
}

/** The last word on how many picks a block has, from a hand or from a reading; none where it is as planned. */
export function lastSet(course: Course, block: CourseBlock): BlockPicks | undefined {
  return course.adjustments.blocks.findLast(
    (it) => it.piece === block.piece && it.block === block.ofPiece,
  );
}

/** One block as it is aimed. */
export interface Aim {
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

/**
 * Every block of a piece as it is aimed with `pick` picks of the course in the cloth, hems included, in
 * weaving order: what shares out a miss must see the woven ones too.
 */
export function aimsOf(
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

/** What the first half became, in its picks or in its length. */
export function matchedPicks(aim: Aim): number {
  const { partner } = aim;
  if (partner === null) return aim.block.picks;
  if (partner.match === 'picks') return asPartner(aim, partner.block.picks);
  return nearestPicks(aim, partnerLength(aim));
}

/** Loom length the first half came to, for a block that may be shorter by the turns both share. */
export function partnerLength({ partner, base, wanted }: Aim): Mm {
  if (partner === null) return wanted;
  const share = plannedLengthOf(base) / (plannedLengthOf(partner.base) || 1);
  return partner.block.loomLength * share;
}

/** As many picks more or fewer than planned as the block of the first half has. */
export function asPartner({ partner, base, woven }: Aim, picks: number): number {
  const change = partner === null ? 0 : picks - picksOf(partner.base);
  return Math.max(woven, 0, picksOf(base) + change);
}

/** Loom length of the block with so many picks, none fewer than are woven. */
export function lengthWith(aim: Aim, picks: number): Mm {
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
export function nearestPicks(aim: Aim, wanted: Mm): number {
  const { from, step } = permitted(aim);
  const start = lengthWith(aim, from);
  const steps = Math.max(0, Math.ceil((wanted - start) / stepLength(aim) - 0.5 - 1e-9));
  return from + steps * step;
}

/** Loom length of the smallest change a block may have. */
export function stepLength(aim: Aim): Mm {
  const { from, step } = permitted(aim);
  return Math.max(1e-9, lengthWith(aim, from + step) - lengthWith(aim, from));
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
export function stepOf({ period, block, source }: LaidBlock): number {
  // After the last hem the yarn is cut, so its shuttle may lie on either side.
  if (block === null && source.endsWith('.ending')) return 1;
  if (period.yarns.length === 1) {
    return mayHaveAnyParity(block) ? 1 : 2;
  }
  const sums = new Map<number, number>();
  for (const [i, yarn] of period.yarns.entries()) {
    sums.set(yarn, (sums.get(yarn) ?? 0) + (period.picks[i] ?? 0));
  }
  const all = [...sums.values()];
  const total = all.reduce((sum, picks) => sum + picks, 0);
  return all.every((picks) => picks % 2 === 0) ? total : 2 * total;
}
