/** A line across the tape, and what it is a line of. */
import type { Mm } from '../../../../core/measure/length.ts';
import { type PaperMark, STRIP_WIDTH } from '../../../../core/paper/tape.ts';
import { BAND_LEFT, WORDS_LEFT } from './strip.tsx';

export interface MarkProps {
  readonly kind: PaperMark['kind'];
  readonly y: Mm;
}

export function Mark({ kind, y }: MarkProps) {
  switch (kind) {
    case 'begin':
    case 'end':
      return <path d={`M0 ${y}H${STRIP_WIDTH}`} stroke="#111111" stroke-width={0.7} />;
    case 'block':
      return <path d={`M${BAND_LEFT} ${y}H${STRIP_WIDTH}`} stroke="#111111" stroke-width={0.4} />;
    case 'hem':
      return <HemLine y={y} />;
    case 'hemstitch':
      return <Stitches y={y} from={BAND_LEFT} to={STRIP_WIDTH} />;
    case 'lockEdge':
      return <EdgeSign x={WORDS_LEFT + 1.4} y={y} />;
  }
}

export function HemLine({ y, from = BAND_LEFT, to = STRIP_WIDTH }: LineProps) {
  return (
    <path
      d={`M${from} ${y}H${to}`}
      stroke="#111111"
      stroke-width={0.5}
      stroke-dasharray="2.4 1"
      fill="none"
    />
  );
}

interface LineProps {
  readonly y: Mm;
  readonly from?: Mm;
  readonly to?: Mm;
}

/** Hemstitching: a row of crosses. */
export function Stitches({ y, from, to }: Required<LineProps>) {
  const crosses = Array.from({ length: Math.floor((to - from) / 2.6) }, (_, i) => {
    const x = from + 0.4 + i * 2.6;
    return `M${x} ${y - 0.9}l1.8 1.8m0 -1.8l-1.8 1.8`;
  });
  const d = crosses.join('');
  return (
    <>
      {/* So that they stand out on a dark band. */}
      <path d={d} stroke="#ffffff" stroke-width={1.1} stroke-linecap="round" fill="none" />
      <path d={d} stroke="#111111" stroke-width={0.35} fill="none" />
    </>
  );
}

/** An open loop at the edge: the edge end is not caught here. */
export function EdgeSign({ x, y }: { readonly x: Mm; readonly y: Mm }) {
  return (
    <path
      d={`M${x - 0.9} ${y - 0.5}a1.3 1.3 0 1 1 1.8 0`}
      stroke="#111111"
      stroke-width={0.4}
      fill="none"
    />
  );
}
