/** What a block comes to besides what was planned, in words. */
import type { Units } from '../../../../../core/measure/length.ts';
import type { AlternationBlock, SolidBlock } from '../../../../../core/plan/plan.ts';
import { type Beat, blockSize } from '../../../../../core/planner/orderBands.ts';
import { count, length } from '../../../../format.ts';

/** `Comes to 24 picks.`, `Comes to 15 turns, 30 picks.`; nothing while it is no block yet. */
export function sizeWords(block: SolidBlock | AlternationBlock, beat: Beat, units: Units): string {
  const size = blockSize(block, beat);
  if (size === null) return '';
  const turns = block.kind === 'solid' ? null : count(size.turns, 'turn');
  const words = {
    turns,
    picks: count(size.picks, 'pick'),
    length: `${length(size.loomLength, units)} on the loom`,
  };
  const others = (['turns', 'picks', 'length'] as const)
    .filter((kind) => kind !== block.extent.kind)
    .map((kind) => words[kind]);
  return `Comes to ${others.filter((it) => it !== null).join(', ')}.`;
}
