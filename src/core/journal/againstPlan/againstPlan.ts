/**
 * Planned against woven: for every piece what the plan said as it was put on the loom, what was
 * thrown, block by block, and how the two differ.
 */
import { thrownOnly } from '../../bench/byEye/record.ts';
import { pieceLastWoven } from '../../bench/byEye/throwing.ts';
import type { Course, CourseBlock } from '../../bench/course.ts';
import { asBlocks } from '../../bench/endings/woven/asBlocks.ts';
import type { LogEvent } from '../../bench/events.ts';
import { folded } from '../../bench/happened.ts';
import { layPiece } from '../../bench/layPiece.ts';
import { type Progress, progressOf, startOf } from '../../bench/progress.ts';
import { lengthOfPiece } from '../../bench/tape.ts';
import { countedEvents } from '../../bench/undo.ts';
import type { Mm } from '../../measure/length.ts';
import {
  type BlockRole,
  type LaidBlock,
  picksOf,
  plannedLengthOf,
  withPicks,
} from '../../plan/blocks.ts';
import type { Block, Plan } from '../../plan/plan.ts';
import { type Pair, pairedByLikeness, pairedByPlace } from './pair.ts';

export interface PieceAgainstPlan {
  readonly piece: number;
  readonly name: string;
  readonly rows: readonly BlockAgainstPlan[];
  /** As it was planned when the warp was put on the loom; null for a piece added later. */
  readonly planned: Amount | null;
  /** What is in the cloth. */
  readonly woven: Amount;
  readonly state: 'done' | 'begun' | 'toCome' | 'dropped';
  /** Picks taken out of it on the way. */
  readonly takenOut: number;
}

export interface Amount {
  readonly picks: number;
  /** Planned at the planned beat; of the cloth as it is believed now. */
  readonly loomLength: Mm;
}

/** Blocks in words of the plan, and what they come to. */
export interface Told extends Amount {
  readonly blocks: readonly Block[];
}

export interface BlockAgainstPlan {
  readonly role: BlockRole;
  readonly name: string | null;
  readonly planned: Told | null;
  /** What is in the cloth of it; null where nothing is. */
  readonly woven: Told | null;
  readonly change: Change;
}

export type Change =
  | 'asPlanned'
  | 'longer'
  | 'shorter'
  /** As many picks, but others. */
  | 'other'
  /** Planned to be woven by eye. */
  | 'byEye'
  | 'leftOut'
  | 'added'
  | 'here'
  | 'toCome';

/** All pieces, planned or woven, of the plan as it was put on the loom and what happened since. */
export function againstPlan(base: Plan, log: readonly LogEvent[]): readonly PieceAgainstPlan[] {
  const progress = progressOf(base, log);
  const takenOut = takenOutOf(base, log);
  const count = Math.max(base.pieces.length, progress.course.pieces.length);
  return Array.from({ length: count }, (_, piece) =>
    pieceAgainst(base, progress, piece, takenOut.get(piece) ?? 0),
  );
}

/** Picks taken out of each piece. */
function takenOutOf(base: Plan, log: readonly LogEvent[]): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  let before = startOf(base);
  for (const event of countedEvents(log)) {
    const after = folded(before, event);
    if (event.kind === 'takenOut' && after.pick < before.pick) {
      const { index } = pieceLastWoven(before);
      found.set(index, (found.get(index) ?? 0) + before.pick - after.pick);
    }
    before = after;
  }
  return found;
}

function pieceAgainst(
  base: Plan,
  progress: Progress,
  piece: number,
  takenOut: number,
): PieceAgainstPlan {
  const { course, pick, revision } = progress;
  const plannedLaid = base.pieces[piece] === undefined ? [] : layPiece(base, piece);
  const it = course.pieces[piece];
  const blocks =
    it === undefined ? [] : course.blocks.slice(it.firstBlock, it.firstBlock + it.blocks);
  const parts = blocks.map((block) => partOf(course, block, pick));
  const pairs =
    revision === 0
      ? pairedByPlace(plannedLaid.length, parts.length)
      : pairedByLikeness(
          plannedLaid,
          parts.map((part) => part.whole),
        );
  const rows = pairs.map((pair) => rowOf(base, course.plan, plannedLaid, parts, pair));
  const woven = parts.reduce((sum, part) => plus(sum, part), NOTHING);
  return {
    piece,
    name: (course.plan.pieces[piece] ?? base.pieces[piece])?.name ?? '',
    rows,
    planned:
      base.pieces[piece] === undefined ? null : plannedLaid.map(amountOf).reduce(plus, NOTHING),
    woven,
    state: stateOf(course, piece, pick),
    takenOut,
  };
}

const NOTHING: Amount = { picks: 0, loomLength: 0 };

function plus(a: Amount, b: Amount): Amount {
  return { picks: a.picks + b.picks, loomLength: a.loomLength + b.loomLength };
}

function amountOf(laid: LaidBlock): Amount {
  const thrown = thrownOnly(laid);
  return { picks: picksOf(thrown), loomLength: plannedLengthOf(thrown) };
}

function stateOf(course: Course, piece: number, pick: number): PieceAgainstPlan['state'] {
  const it = course.pieces[piece];
  if (it === undefined) return 'dropped';
  if (pick <= it.firstPick && it.picks > 0) return 'toCome';
  return pick >= it.firstPick + it.picks ? 'done' : 'begun';
}

/** A block of the course as far as it is woven. */
interface Part extends Amount {
  readonly whole: LaidBlock;
  readonly woven: LaidBlock;
  readonly state: 'woven' | 'here' | 'toCome';
}

function partOf(course: Course, block: CourseBlock, pick: number): Part {
  const picks = Math.max(0, Math.min(block.picks, pick - block.firstPick));
  const end = block.firstPick + block.picks;
  const piece = course.pieces[block.piece];
  const at = (n: number) => (piece === undefined ? 0 : lengthOfPiece(course, piece, n));
  return {
    whole: thrownOnly(block.laid),
    woven: picks === block.picks ? block.laid : withPicks(thrownOnly(block.laid), picks),
    picks,
    loomLength: at(block.firstPick + picks) - at(block.firstPick),
    state: pick >= end ? 'woven' : pick > block.firstPick ? 'here' : 'toCome',
  };
}

function rowOf(
  base: Plan,
  plan: Plan,
  plannedLaid: readonly LaidBlock[],
  parts: readonly Part[],
  pair: Pair,
): BlockAgainstPlan {
  const laid = pair.planned === null ? undefined : plannedLaid[pair.planned];
  const part = pair.woven === null ? undefined : parts[pair.woven];
  const shown = laid ?? part?.whole;
  if (shown === undefined) throw new Error('rowOf: wanted a block on one side at least');
  return {
    role: shown.role,
    name: shown.name,
    planned: laid === undefined ? null : { ...amountOf(laid), blocks: toldBlocks(base, laid) },
    woven:
      part === undefined || part.picks === 0
        ? null
        : {
            picks: part.picks,
            loomLength: part.loomLength,
            blocks: toldBlocks(plan, part.woven),
          },
    change: changeOf(laid, part, hasGoneOn(parts, pair.woven)),
  };
}

/** Hems are told as the solids they are. */
function toldBlocks(plan: Plan, laid: LaidBlock): readonly Block[] {
  if (laid.isOpen && laid.block?.kind === 'free' && picksOf(laid) === 1) return [laid.block];
  return asBlocks(thrownOnly(laid), plan);
}

function hasGoneOn(parts: readonly Part[], woven: number | null): boolean {
  return parts.some((part, i) => part.picks > 0 && i > (woven ?? parts.length));
}

function changeOf(laid: LaidBlock | undefined, part: Part | undefined, hasGoneOn: boolean): Change {
  if (laid === undefined) return part?.state === 'toCome' ? 'toCome' : 'added';
  if (part === undefined) return 'leftOut';
  if (part.state === 'here') return 'here';
  if (part.picks === 0 && part.state === 'toCome' && !hasGoneOn) return 'toCome';
  if (laid.role === 'free') return part.picks === 0 ? 'leftOut' : 'byEye';
  if (part.picks === 0) return 'leftOut';
  const planned = picksOf(laid);
  if (part.picks !== planned) return part.picks > planned ? 'longer' : 'shorter';
  return isSame(laid, part.woven) ? 'asPlanned' : 'other';
}

function isSame(a: LaidBlock, b: LaidBlock): boolean {
  return runsOf(a) === runsOf(b);
}

function runsOf(laid: LaidBlock): string {
  const { yarns, picks } = laid.period;
  return Array.from({ length: laid.turns }, (_, k) => {
    const at = (laid.firstTurn + k) % yarns.length;
    const last = k === laid.turns - 1 ? laid.lastTurnPicks : null;
    return `${yarns[at]}:${last ?? picks[at]}`;
  }).join();
}
