/** Bars of 100 mm and 4 inches: laid against a ruler, they tell whether the printer kept the size. */

import type { Mm } from '../../../../core/measure/length.ts';
import { MM_PER_INCH } from '../../../../core/measure/length.ts';
import { CHECK_BAR_INCHES, CHECK_BAR_MM } from '../../../../core/paper/paper.ts';
import { t } from '../../../language/t.ts';

export interface BarProps {
  readonly x: Mm;
  readonly top: Mm;
  /** Drawn longer where the printer makes it shorter. */
  readonly stretch: number;
}

const LINE = { stroke: '#111111', 'stroke-width': 0.3 };

export function FlatBar({ x, top, stretch }: BarProps) {
  const inches = top + 8.5;
  return (
    <g>
      <path {...LINE} fill="none" d={flat(x, top, 10, 10, 2, stretch)} />
      <text x={x + 1.5} y={top + 6.2} font-size={2.7}>
        {t('{n} mm. If it is not, tell the app what it measures.', { n: CHECK_BAR_MM })}
      </text>
      <path {...LINE} fill="none" d={flat(x, inches, CHECK_BAR_INCHES, MM_PER_INCH, 2, stretch)} />
      <text x={x + 1.5} y={inches + 6.2} font-size={2.7}>
        {t('{n} in. Cut out, glue part on part line on line, pin 0 to pick 1.', {
          n: CHECK_BAR_INCHES,
        })}
      </text>
    </g>
  );
}

/** A line with a tick at every step, the first and last one longer. */
function flat(x: Mm, y: Mm, steps: number, step: Mm, tick: Mm, stretch: number): string {
  const end = x + steps * step * stretch;
  const ticks = Array.from({ length: steps + 1 }, (_, i) => {
    const long = i === 0 || i === steps ? 2 * tick : tick;
    return `M${x + i * step * stretch} ${y}v${long}`;
  });
  return `M${x} ${y}H${end}${ticks.join('')}`;
}

export function UprightBar({ x, top, stretch }: BarProps) {
  const foot = top + CHECK_BAR_MM * stretch;
  const ticks = Array.from({ length: 11 }, (_, i) => {
    const long = i % 10 === 0 ? 4 : 2;
    return `M${x} ${top + i * 10 * stretch}h-${long}`;
  });
  return (
    <g>
      <path {...LINE} fill="none" d={`M${x} ${top}V${foot}${ticks.join('')}`} />
      <text
        x={0}
        y={0}
        font-size={3.2}
        transform={`translate(${x - 0.8} ${foot - 12}) rotate(-90)`}
      >
        {t('{n} mm', { n: CHECK_BAR_MM })}
      </text>
    </g>
  );
}
