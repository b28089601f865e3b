/** What a yarn does while others work: as the block or the yarn says, else the carry limit decides. */
import type { Mm } from '../measure/length.ts';
import type { Letter, Plan, Resting } from '../plan/plan.ts';
import type { CourseBlock, CoursePiece, Turns } from './course.ts';
import type { Stripes } from './stripes.ts';

/** What rests follow from; the stripes may still be being laid. */
export interface RestGround {
  readonly plan: Plan;
  readonly blocks: readonly CourseBlock[];
  readonly turns: Turns;
  readonly stripes: Pick<Stripes, 'firstPick' | 'firstTurn' | 'yarn'>;
}

const FLOATS: Resting = { mode: 'float' };
const IS_CUT: Resting = { mode: 'cut' };

/** What a yarn does between two of its stripes. */
export function restBetween(ground: RestGround, before: number, after: number): Resting {
  const { turns, stripes } = ground;
  const turn = stripes.firstTurn[after] ?? 0;
  return restUntil(ground, before, turn, loomAtTurn(turns, turn));
}

/** What the yarn of a stripe does until it works again at a turn, `planned` millimetres into the piece. */
function restUntil(ground: RestGround, before: number, turn: number, planned: Mm): Resting {
  const { plan, turns, stripes } = ground;
  const yarn = plan.yarns[stripes.yarn[before] ?? 0];
  const left = stripes.firstTurn[before + 1] ?? 0;
  const chosen =
    restingIn(ground, turn, yarn?.letter) ??
    restingIn(ground, left - 1, yarn?.letter) ??
    yarn?.resting;
  if (chosen !== undefined) return chosen;
  const float = planned - loomAtTurn(turns, left);
  return float <= plan.weaving.carryLimit + 1e-9 ? FLOATS : IS_CUT;
}

function restingIn(
  { blocks, turns }: RestGround,
  turn: number,
  letter: Letter | undefined,
): Resting | undefined {
  const block = blocks[turns.block[turn] ?? -1];
  return letter === undefined ? undefined : block?.laid.block?.resting?.[letter];
}

function loomAtTurn(turns: Turns, turn: number): Mm {
  return turns.loomStart[turn] ?? 0;
}

/** Where a piece is woven by eye: the pick that stands for the next one, and its turn. */
export interface OpenPlace {
  readonly pick: number;
  readonly turn: number;
}

/** The first place in a piece where the next pick is thrown by eye; null where all of it is known. */
export function openPlace(
  { blocks, turns }: Pick<RestGround, 'blocks' | 'turns'>,
  piece: CoursePiece,
): OpenPlace | null {
  const block = openBlock({ blocks }, piece);
  if (block === undefined) return null;
  const turn = block.firstTurn + block.turns - 1;
  return { turn, pick: (turns.firstPick[turn + 1] ?? 0) - 1 };
}

/** The block of that place. */
export function openBlock(
  { blocks }: Pick<RestGround, 'blocks'>,
  { firstBlock, blocks: count }: CoursePiece,
): CourseBlock | undefined {
  return blocks.slice(firstBlock, firstBlock + count).find((it) => it.laid.isOpen);
}

/** Whether a pick of the course lies in stripe `r`; the start of the stripe after it must be known. */
export function holdsPick(
  { firstPick }: Pick<Stripes, 'firstPick'>,
  r: number,
  pick: number,
): boolean {
  return (firstPick[r] ?? 0) <= pick && pick < (firstPick[r + 1] ?? 0);
}

/**
 * By eye any yarn may come back with the next pick: until it has rested too long its shuttle lies
 * there. The last stripes of the yarns not at work, and what they do so far.
 */
export function restsAtOpen(
  ground: RestGround,
  { pick, turn }: OpenPlace,
  lastOf: Int32Array,
): readonly (readonly [stripe: number, rest: Resting])[] {
  const { stripes, turns } = ground;
  const into = pick - (turns.firstPick[turn] ?? 0);
  const planned = loomAtTurn(turns, turn) + into * (turns.spacing[turn] ?? 0);
  return [...lastOf]
    .filter((last) => last >= 0 && !holdsPick(stripes, last, pick))
    .map((last) => [last, restUntil(ground, last, turn, planned)] as const);
}
