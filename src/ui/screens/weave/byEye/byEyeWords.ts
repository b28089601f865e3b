/** What the bench says while a piece is woven by eye. */
import type { YarnToThrow } from '../../../../core/bench/byEye/yarnsToThrow.ts';
import type { Yarn } from '../../../../core/plan/plan.ts';
import { count } from '../../../format.ts';

/** From where the shuttle goes, the way the arrow of the call points. */
export const fromWords = ({ from }: YarnToThrow) =>
  from === 'left' ? '→ from left' : '← from right';

/** What the hands do before this yarn is thrown; empty for the one in hand. */
export function handNote({ entry, wasCut, edge, overPicks }: YarnToThrow): string {
  if (entry === 'again') return '';
  if (entry === 'new') return wasCut ? 'was cut: start anew' : 'start it';
  const over = overPicks > 2 ? [`over ${count(overPicks, 'pick')}`] : [];
  const lock = edge === 'not-caught' ? ['lock the edge end'] : [];
  const words = [...over, ...lock];
  return words.length === 0 ? 'bring it up' : words.join(', ');
}

/** The whole button in one sentence, for ears. */
export function throwLabel(yarn: Yarn, it: YarnToThrow, picks: number): string {
  const note = handNote(it);
  const hand = note === '' ? '' : `, ${note}`;
  return `${count(picks, 'pick')} of ${yarn.name}, from the ${it.from}${hand}`;
}

export const tapWords = (picks: number) => `${picks === 1 ? 'pick' : 'picks'} a tap`;
