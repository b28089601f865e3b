/** Laid blocks put back into words of the plan, so that laying them again gives the very same picks. */
import { type LaidBlock, picksOf, plannedLengthOf, turnOf } from '../../../plan/blocks.ts';
import { periodOf } from '../../../plan/blockTurns.ts';
import { stillFree } from '../../../plan/freeBlock.ts';
import { LIMITS } from '../../../plan/limits.ts';
import type { AlternationBlock, Block, FreeBlock, Plan, SolidBlock } from '../../../plan/plan.ts';
import { recogniseBlocks } from '../../byEye/recogniseBlocks.ts';
import { thrownOnly } from '../../byEye/record.ts';

/**
 * The plan's own blocks for one laid block, in picks and whole turns; name, spacing, resting and
 * starting sides are kept. None for a block without picks; an alternation and a solid where the last
 * turn is not a whole one.
 */
export function asBlocks(laid: LaidBlock, plan: Plan): readonly Block[] {
  if (laid.block?.kind === 'free') return asThrown(laid, laid.block, plan);
  if (laid.turns === 0) return [];
  const last = turnOf(laid, laid.turns - 1);
  if (laid.period.yarns.length === 1) return solids(laid, plan, last.yarn, picksOf(laid));
  const isWhole = last.picks === turnOf({ ...laid, lastTurnPicks: null }, laid.turns - 1).picks;
  if (isWhole) return alternations(laid, plan);
  const before = { ...laid, turns: laid.turns - 1, lastTurnPicks: null };
  return [...asBlocks(before, plan), ...solids(laid, plan, last.yarn, last.picks)];
}

/** What was thrown by eye as the blocks it can be told in, and the rest of it where it is not ended. */
function asThrown(laid: LaidBlock, free: FreeBlock, plan: Plan): readonly Block[] {
  const thrown = thrownOnly(laid);
  const runs = Array.from({ length: thrown.turns }, (_, k) => turnOf(thrown, k));
  const record = runs.map(({ yarn, picks }) => ({ of: letterOf(plan, yarn), count: picks }));
  const { name, ...extras } = wovenAs(laid);
  const blocks = recogniseBlocks(record).map((block) => withExtras(block, extras));
  const [only, ...others] = blocks;
  const known: readonly Block[] =
    name === undefined || only === undefined
      ? blocks
      : [others.length === 0 ? { ...only, name } : { kind: 'repeat', name, times: 1, of: blocks }];
  return laid.isOpen ? [...known, stillFree(free, plannedLengthOf(thrown))] : known;
}

function withExtras(block: Block, extras: Woven): Block {
  if (block.kind === 'free') return block;
  if (block.kind === 'solid' || block.kind === 'alternation') return { ...block, ...extras };
  return { ...block, of: block.of.map((it) => withExtras(it, extras)) };
}

type Woven = Pick<SolidBlock, 'name' | 'pickSpacing' | 'resting' | 'starts'>;

/** What a block says beside its yarns and its size. */
function wovenAs({ name, block }: LaidBlock): Woven {
  const { pickSpacing, resting, starts } = block ?? {};
  return {
    ...(name === null ? {} : { name }),
    ...(pickSpacing === undefined ? {} : { pickSpacing }),
    ...(resting === undefined ? {} : { resting }),
    ...(starts === undefined ? {} : { starts }),
  };
}

function solids(laid: LaidBlock, plan: Plan, yarn: number, picks: number): readonly Block[] {
  if (picks === 0) return [];
  const extent = { kind: 'picks', picks } as const;
  return [{ kind: 'solid', yarn: letterOf(plan, yarn), extent, ...wovenAs(laid) }];
}

function alternations(laid: LaidBlock, plan: Plan): readonly Block[] {
  const planned = asPlanned(laid, plan);
  if (planned !== null) return [planned];
  const cycle = cycleFromFirstTurn(laid, plan);
  const opens = cycle[0]?.yarn ?? '';
  // The period of a long cycle there and back may be longer than a cycle may be.
  if (cycle.length > LIMITS.yarns) return turnByTurn(laid, plan);
  const extent = { kind: 'turns', turns: laid.turns } as const;
  return [{ kind: 'alternation', cycle, path: 'round', opens, extent, ...wovenAs(laid) }];
}

/** The plan's own cycle and path, where the laid block still runs as they say. */
function asPlanned(laid: LaidBlock, plan: Plan): AlternationBlock | null {
  if (laid.block?.kind !== 'alternation') return null;
  const { cycle, path, opens } = laid.block;
  const period = periodOf(plan, laid.block);
  const first = plan.yarns.findIndex((yarn) => yarn.letter === opens);
  const isSame =
    laid.firstTurn === period.yarns.indexOf(first) &&
    sameNumbers(period.yarns, laid.period.yarns) &&
    sameNumbers(period.picks, laid.period.picks);
  if (!isSame) return null;
  const extent = { kind: 'turns', turns: laid.turns } as const;
  return { kind: 'alternation', cycle, path, opens, extent, ...wovenAs(laid) };
}

/** One whole period, begun on the first turn: a yarn with two turns in it opens on the right one. */
function cycleFromFirstTurn({ period, firstTurn }: LaidBlock, plan: Plan) {
  const { yarns, picks } = period;
  return yarns.map((_, k) => {
    const at = (firstTurn + k) % yarns.length;
    return { yarn: letterOf(plan, yarns[at] ?? 0), picks: picks[at] ?? 0 };
  });
}

function turnByTurn(laid: LaidBlock, plan: Plan): readonly Block[] {
  const length = laid.period.yarns.length;
  const turns = (from: number, count: number) =>
    Array.from({ length: count }, (_, k) => turnOf(laid, from + k)).flatMap(({ yarn, picks }) =>
      solids(laid, plan, yarn, picks),
    );
  const times = Math.floor(laid.turns / length);
  const whole: readonly Block[] =
    times === 0 ? [] : [{ kind: 'repeat', times, of: turns(0, length) }];
  return [...whole, ...turns(times * length, laid.turns % length)];
}

function sameNumbers(one: readonly number[], other: readonly number[]): boolean {
  return one.length === other.length && one.every((it, i) => it === other[i]);
}

/** The letter the plan gives a yarn index. Throws where it has no such yarn. */
export function letterOf(plan: Plan, yarn: number): string {
  const letter = plan.yarns[yarn]?.letter;
  if (letter === undefined) throw new Error(`letterOf: wanted a yarn of the plan, got ${yarn}`);
  return letter;
}
