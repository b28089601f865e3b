/** Blocks as long as they were, at another beat. */
import type { Mm } from '../../measure/length.ts';
import { layWeft, plannedLengthOf, turnOf } from '../../plan/blocks.ts';
import { nearestTurns, picksForLength } from '../../plan/blockTurns.ts';
import type { AlternationBlock, Block, Letter, Plan, SolidBlock } from '../../plan/plan.ts';

/**
 * Each block with the picks that bring it nearest to its length in the plan, at other distances from
 * pick to pick: solids keep their parity, alternations whole turns and the yarn they end on.
 */
export function resized(
  plan: Plan,
  blocks: readonly Block[],
  spacing: (letter: Letter) => Mm,
): readonly Block[] {
  return blocks.map((block) => resizedBlock(plan, block, spacing));
}

function resizedBlock(plan: Plan, block: Block, spacing: (letter: Letter) => Mm): Block {
  switch (block.kind) {
    case 'free':
      return block;
    case 'repeat':
    case 'mirror':
      return { ...block, of: resized(plan, block.of, spacing) };
    case 'solid':
      return resizedSolid(plan, block, spacing);
    case 'alternation':
      return resizedAlternation(plan, block, spacing);
  }
}

function withoutBeat<B extends SolidBlock | AlternationBlock>(block: B): B {
  const { pickSpacing, ...rest } = block;
  // Without its optional beat it is the same kind of block.
  return rest as B;
}

function laidAlone(plan: Plan, block: Block) {
  const pieces = plan.pieces.map((piece) => ({ ...piece, weft: [block] }));
  const [laid] = layWeft({ ...plan, pieces }, 0);
  if (laid === undefined) throw new Error(`resized: got a ${block.kind} that lays nothing`);
  return laid;
}

function resizedSolid(plan: Plan, block: SolidBlock, spacing: (letter: Letter) => Mm): SolidBlock {
  const laid = laidAlone(plan, block);
  const parity = turnOf(laid, 0).picks % 2 === 0 ? 'even' : 'odd';
  const extent = { kind: 'length', loomLength: plannedLengthOf(laid), parity } as const;
  const picks = picksForLength(extent, spacing(block.yarn));
  return { ...withoutBeat(block), extent: { kind: 'picks', picks } };
}

function resizedAlternation(
  plan: Plan,
  block: AlternationBlock,
  spacing: (letter: Letter) => Mm,
): AlternationBlock {
  const laid = laidAlone(plan, block);
  const last = turnOf(laid, laid.turns - 1).yarn;
  const weigh = (yarn: number) => spacing(plan.yarns[yarn]?.letter ?? '');
  const length = plannedLengthOf(laid);
  const turns = nearestTurns(laid.period, laid.firstTurn, last, length, weigh);
  return { ...withoutBeat(block), extent: { kind: 'turns', turns } };
}
