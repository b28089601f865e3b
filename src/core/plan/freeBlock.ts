/** A part woven by eye, before anything of it is thrown. */
import type { Mm } from '../measure/length.ts';
import type { Turns } from './blockTurns.ts';
import type { FreeBlock } from './plan.ts';

/** One pick stands for what will be thrown; until then it is of the first yarn. */
export const NOTHING_BY_EYE = {
  period: { yarns: [0], picks: [1] },
  firstTurn: 0,
  turns: 1,
  isOpen: true,
} as const satisfies Turns;

/** The shortest part a plan may have. */
const SHORTEST: Mm = 0.1;

/** What of it is still to be woven, so many planned millimetres being thrown. */
export function stillFree({ loomLength, ...rest }: FreeBlock, thrown: Mm): FreeBlock {
  const left = (loomLength ?? 0) - thrown;
  return left < SHORTEST ? rest : { ...rest, loomLength: left };
}
