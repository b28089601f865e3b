/** What the bench says while a piece is woven by eye. */
import type { YarnToThrow } from '../../../../core/bench/byEye/yarnsToThrow.ts';
import type { Side } from '../../../../core/plan/plan.ts';
import { t } from '../../../language/t.ts';

/** The way the shuttle goes, as the arrow of the call points. */
export const ARROWS = { left: '→', right: '←' } as const satisfies Record<Side, string>;

/** What the hands do before this yarn is thrown; nothing for the one in hand. */
export function handNote({ entry, wasCut, edge, overPicks }: YarnToThrow): string {
  if (entry === 'again') return t('in hand');
  if (entry === 'new') return wasCut ? t('cut: start anew') : t('start it');
  const over =
    overPicks > 2 ? [t('over {n, plural, one {# pick} other {# picks}}', { n: overPicks })] : [];
  const lock = edge === 'not-caught' ? [t('lock the edge')] : [];
  const words = [...over, ...lock];
  return words.length === 0 ? t('bring it up') : words.join(', ');
}

/** The same where many yarns stand beside one another. */
export function shortNote({ entry, wasCut, edge, overPicks }: YarnToThrow): string {
  if (entry === 'again') return t('in hand');
  if (entry === 'new') return wasCut ? t('start anew') : t('start it');
  const over = overPicks > 2 ? [t('over {n}', { n: overPicks })] : [];
  return [...over, ...(edge === 'not-caught' ? [t('lock edge')] : [])].join(', ');
}
