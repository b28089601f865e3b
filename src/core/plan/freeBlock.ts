/** A part woven by eye, before anything of it is thrown. */
import type { LaidBlock } from './blocks.ts';

/** One pick stands for what will be thrown; until then it is of the first yarn. */
export const NOTHING_BY_EYE = {
  period: { yarns: [0], picks: [1] },
  firstTurn: 0,
  turns: 1,
  isOpen: true,
} as const satisfies Pick<LaidBlock, 'period' | 'firstTurn' | 'turns' | 'isOpen'>;
