/** What the extent of a block comes to in turns, at the beat now known. */
import type { Mm } from '../measure/length.ts';
import { NOTHING_BY_EYE } from './freeBlock.ts';
import { LIMITS } from './limits.ts';
import type {
  AlternationBlock,
  Block,
  LengthExtent,
  Letter,
  MirrorBlock,
  Plan,
  RepeatBlock,
} from './plan.ts';

export interface Period {
  /** Yarn index of each turn of one period. */
  readonly yarns: readonly number[];
  /** Picks of each turn of one period. */
  readonly picks: readonly number[];
}

/** A stretch of a repeating period. */
export interface Turns {
  readonly period: Period;
  /** Place in the period of the first turn. */
  readonly firstTurn: number;
  readonly turns: number;
  /** Of a part woven by eye that is not ended: its last pick is not woven, it stands for the next one. */
  readonly isOpen?: true;
}

/** Turns of a block without blocks in it. `spacings`: mm per pick by yarn index. Throws as `yarnIndex` does. */
export function layTurns(
  plan: Plan,
  block: Exclude<Block, RepeatBlock | MirrorBlock>,
  spacings: readonly Mm[],
): Turns {
  switch (block.kind) {
    case 'free':
      return NOTHING_BY_EYE;
    case 'solid':
      return layTurnsOfSolid(plan, block, spacings);
    case 'alternation':
      return layTurnsOfAlternation(plan, block, spacings);
  }
}

function layTurnsOfSolid(
  plan: Plan,
  block: Extract<Block, { kind: 'solid' }>,
  spacings: readonly Mm[],
): Turns {
  const yarn = yarnIndex(plan, block.yarn);
  const picks =
    block.extent.kind === 'picks'
      ? block.extent.picks
      : picksForLength(block.extent, spacings[yarn] ?? 0);
  return { period: { yarns: [yarn], picks: [picks] }, firstTurn: 0, turns: 1 };
}

/**
 * The number of picks of a solid nearest a loom length: even unless asked, so that its shuttle
 * rests where it set out; ties go down; never less than one step.
 */
export function picksForLength(extent: LengthExtent, spacing: Mm): number {
  const parity = extent.parity ?? 'even';
  const picks = extent.loomLength / spacing;
  if (parity === 'any') return Math.max(1, roundTiesDown(picks));
  if (parity === 'even') return Math.max(2, 2 * roundTiesDown(picks / 2));
  return Math.max(1, 2 * roundTiesDown((picks - 1) / 2) + 1);
}

/** Ties go down; the slack keeps a length typed in inches from missing its tie by a rounding error. */
function roundTiesDown(x: number): number {
  return Math.ceil(x - 0.5 - 1e-9);
}

function layTurnsOfAlternation(
  plan: Plan,
  block: AlternationBlock,
  spacings: readonly Mm[],
): Turns {
  const period = periodOf(plan, block);
  const firstTurn = Math.max(0, period.yarns.indexOf(yarnIndex(plan, block.opens)));
  const extent = block.extent;
  if (extent.kind === 'turns') return { period, firstTurn, turns: extent.turns };
  const target = extent.kind === 'picks' ? extent.picks : extent.loomLength;
  const weigh = (yarn: number) => (extent.kind === 'picks' ? 1 : (spacings[yarn] ?? 0));
  const closes = block.closes === undefined ? null : yarnIndex(plan, block.closes);
  return { period, firstTurn, turns: nearestTurns(period, firstTurn, closes, target, weigh) };
}

/** One period of an alternation: `round` A B C, `there-and-back` A B C B. */
export function periodOf(plan: Pick<Plan, 'yarns'>, block: AlternationBlock): Period {
  const back = block.path === 'there-and-back' ? block.cycle.slice(1, -1).reverse() : [];
  const turns = [...block.cycle, ...back];
  return {
    yarns: turns.map((turn) => yarnIndex(plan, turn.yarn)),
    picks: turns.map((turn) => turn.picks),
  };
}

/**
 * The number of turns whose total lies nearest `target`, among those that end on `closes`
 * (any, when null). Ties go down; at least the smallest number that closes.
 */
export function nearestTurns(
  period: Period,
  firstTurn: number,
  closes: number | null,
  target: number,
  weigh: (yarn: number) => number,
): number {
  let total = 0;
  let best = 0;
  let bestMiss = Number.POSITIVE_INFINITY;
  for (let turns = 1; turns <= LIMITS.totalPicks; turns++) {
    const at = (firstTurn + turns - 1) % period.yarns.length;
    const yarn = period.yarns[at] ?? 0;
    total += (period.picks[at] ?? 0) * weigh(yarn);
    if (closes !== null && yarn !== closes) continue;
    const miss = Math.abs(total - target);
    if (miss < bestMiss - 1e-9) {
      best = turns;
      bestMiss = miss;
    }
    if (total >= target) break;
  }
  return Math.max(1, best);
}

/** Millimetres per pick by yarn index: the block's own, else each yarn's, else those of the plan. */
export function spacingsIn(plan: Plan, blockSpacing: Mm | undefined): readonly Mm[] {
  return plan.yarns.map((yarn) => blockSpacing ?? yarn.pickSpacing ?? plan.weaving.pickSpacing);
}

/** Index of a yarn by its letter; a checked plan names no unknown yarn, so a miss is our own fault. */
export function yarnIndex(plan: Pick<Plan, 'yarns'>, letter: Letter): number {
  const index = plan.yarns.findIndex((yarn) => yarn.letter === letter);
  if (index < 0) throw new Error(`yarnIndex: wanted a letter of the plan, got ${letter}`);
  return index;
}
