/** Sizes of stripes and blocks by arithmetic alone, so that a plan can be refused before it is laid out. */
import { hemOnLoom } from './geometry.ts';
import type { Block, Piece, Plan, Stripe } from './plan.ts';

/** Ends of a warp order; an upper bound where a mirror shares its centre run. */
export function countEnds(order: readonly Stripe[]): number {
  return order.reduce((sum, stripe) => sum + endsIn(stripe), 0);
}

function endsIn(stripe: Stripe): number {
  switch (stripe.kind) {
    case 'solid':
      return stripe.ends;
    case 'alternation':
      return alternating(
        stripe.cycle.map((turn) => turn.ends),
        stripe.turns,
      );
    case 'repeat':
      return stripe.times * countEnds(stripe.of);
    case 'mirror':
      return 2 * countEnds(stripe.of);
  }
}

function alternating(cycle: readonly number[], turns: number): number {
  const whole = Math.floor(turns / cycle.length);
  const sum = (list: readonly number[]) => list.reduce((total, it) => total + it, 0);
  return whole * sum(cycle) + sum(cycle.slice(0, turns % cycle.length));
}

/** How many blocks one piece is laid out as, hems not counted: each time round of a repeat anew. */
export function countLaidBlocks(blocks: readonly Block[]): number {
  return blocks.reduce((sum, block) => {
    if (block.kind === 'repeat') return sum + block.times * countLaidBlocks(block.of);
    return sum + (block.kind === 'mirror' ? 2 * countLaidBlocks(block.of) : 1);
  }, 0);
}

/** An upper bound of the picks of one piece, hems included. */
export function countPicks(plan: Plan, piece: Piece): number {
  const finest = Math.min(
    plan.weaving.pickSpacing,
    ...plan.yarns.map((yarn) => yarn.pickSpacing ?? plan.weaving.pickSpacing),
  );
  const hems = [piece.beginning, piece.ending].map((edge) => hemOnLoom(plan, edge) / finest + 2);
  return picksIn(piece.weft, finest) + hems.reduce((sum, picks) => sum + picks, 0);
}

function picksIn(blocks: readonly Block[], finest: number): number {
  return blocks.reduce((sum, block) => sum + picksOfBlock(block, finest), 0);
}

/** An alternation by length may run past its length by up to a period until it closes. */
function overshoot(block: Block): number {
  if (block.kind !== 'alternation') return 0;
  return 2 * block.cycle.reduce((sum, turn) => sum + turn.picks, 0);
}

function picksOfBlock(block: Block, finest: number): number {
  if (block.kind === 'repeat') return block.times * picksIn(block.of, finest);
  if (block.kind === 'mirror') return 2 * picksIn(block.of, finest);
  const spacing = Math.min(finest, block.pickSpacing ?? finest);
  if (block.kind === 'free') return (block.loomLength ?? 0) / spacing + 1;
  switch (block.extent.kind) {
    case 'picks':
      return block.extent.picks;
    case 'length':
      return block.extent.loomLength / spacing + 2 + overshoot(block);
    case 'turns': {
      const cycle = block.kind === 'alternation' ? block.cycle : [];
      return block.extent.turns * Math.max(1, ...cycle.map((turn) => turn.picks));
    }
  }
}
