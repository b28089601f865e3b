/** A quiet word about yarns that some eyes cannot tell apart by colour. */
import { parseHex } from '../../../core/measure/colour.ts';
import { alikeToSome } from '../../../core/measure/colourVision.ts';
import { READING_LIMITS } from '../../../core/planner/reads.ts';
import { t } from '../../language/t.ts';
import type { PartProps } from './part.ts';

/** By letter and hatching: every swatch has its letter, and the tape and the paper their hatching. */
export function AlikeNote({ plan }: PartProps) {
  const colours = plan.yarns.map((yarn) => yarn.colour);
  if (!colours.every((colour) => parseHex(colour).ok)) return null;
  const pairs = alikeToSome(colours, READING_LIMITS.difference.vanishes);
  if (pairs.length === 0) return null;
  const name = (yarn: number) => plan.yarns[yarn]?.name ?? '';
  return (
    <ul class="plain hint" aria-label={t('Alike to some eyes')}>
      {pairs.map(({ pair: [one, other] }) => (
        <li key={`${one} ${other}`}>
          {t('{one} and {other} look alike to some eyes: told apart by letter and hatching.', {
            one: name(one),
            other: name(other),
          })}
        </li>
      ))}
    </ul>
  );
}
