/** Whether a block of one yarn may have an odd number of picks or an even one, as it comes. */
import type { LaidBlock } from './blocks.ts';

/** Only where any parity was asked for: else its shuttle must rest where the plan has it. */
export function mayHaveAnyParity(block: LaidBlock['block']): boolean {
  if (block === null || block.kind === 'free') return false;
  return block.extent.kind === 'length' && block.extent.parity === 'any';
}
