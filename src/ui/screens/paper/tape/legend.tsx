/** What stands for what on the tape. */

import type { Mm } from '../../../../core/measure/length.ts';
import { t } from '../../../language/t.ts';
import { InkOf, Letter } from './band.tsx';
import { EdgeSign, HemLine, Stitches } from './mark.tsx';
import type { TapeLook } from './strip.tsx';

export interface LegendProps {
  readonly x: Mm;
  readonly top: Mm;
  readonly look: TapeLook;
}

const TYPE = 2.7;

export function Legend({ x, top, look }: LegendProps) {
  return (
    <g transform={`translate(${x} ${top})`}>
      <Stitches y={1} from={0} to={8} />
      <text x={10} y={2} font-size={TYPE}>
        {t('hemstitch')}
      </text>
      <HemLine y={4.8} from={0} to={8} />
      <text x={10} y={5.8} font-size={TYPE}>
        {t('hem, seam')}
      </text>
      <EdgeSign x={4} y={9.4} />
      <text x={10} y={9.6} font-size={TYPE}>
        {t('lock the edge end')}
      </text>
      {look.course.plan.yarns.slice(0, MOST_YARNS).map((yarn, i) => (
        <YarnKey key={yarn.letter} at={i} yarn={i} look={look} />
      ))}
    </g>
  );
}

/** There is no room for more; the letters stand on the loom card with their names. */
const MOST_YARNS = 8;

interface YarnKeyProps {
  readonly at: number;
  readonly yarn: number;
  readonly look: TapeLook;
}

function YarnKey({ at, yarn, look }: YarnKeyProps) {
  const it = look.course.plan.yarns[yarn];
  const rect = {
    x: 41 + 19 * Math.floor(at / 4),
    y: -0.6 + (at % 4) * 4.2,
    width: 4.5,
    height: 3.6,
  };
  return (
    <>
      <InkOf yarn={yarn} rect={rect} look={look} />
      <Letter x={rect.x + 7} y={rect.y + 1.8} letter={it?.letter ?? ''} />
      <text x={rect.x + 9.4} y={rect.y + 2.7} font-size={TYPE}>
        {(it?.name ?? '').slice(0, 8)}
      </text>
    </>
  );
}
