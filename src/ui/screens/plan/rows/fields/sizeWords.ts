/** What a block comes to besides what was planned, in words. */

import type { Units } from '../../../../../core/measure/length.ts';
import type { AlternationBlock, SolidBlock } from '../../../../../core/plan/plan.ts';
import { type Beat, blockSize } from '../../../../../core/planner/orderBands.ts';
import { length } from '../../../../format.ts';
import { t } from '../../../../language/t.ts';

/** `Comes to 24 picks.`, `Comes to 15 turns, 30 picks.`; nothing while it is no block yet. */
export function sizeWords(block: SolidBlock | AlternationBlock, beat: Beat, units: Units): string {
  const size = blockSize(block, beat);
  if (size === null) return '';
  const turns =
    block.kind === 'solid'
      ? null
      : t('{n, plural, one {# turn} other {# turns}}', { n: size.turns });
  const words = {
    turns,
    picks: t('{n, plural, one {# pick} other {# picks}}', { n: size.picks }),
    length: t('{length} on the loom', { length: length(size.loomLength, units) }),
  };
  const others = (['turns', 'picks', 'length'] as const)
    .filter((kind) => kind !== block.extent.kind)
    .map((kind) => words[kind]);
  return t('Comes to {sizes}.', { sizes: others.filter((it) => it !== null).join(', ') });
}
