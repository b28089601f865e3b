/** A band of weft: its colour or its hatching, with the yarn's letter where there is room. */
import type { Mm } from '../../../../core/measure/length.ts';
import { hatchLines } from '../../../../core/paper/hatch.ts';
import { BAND_LEFT, BAND_WIDTH, type TapeLook } from './strip.tsx';

export interface BandProps {
  readonly top: Mm;
  readonly foot: Mm;
  /** Index of the yarn. */
  readonly yarn: number;
  readonly look: TapeLook;
}

/** Lower bands have no room for a letter. */
const LETTER_ROOM: Mm = 3.6;

export function Band({ top, foot, yarn, look }: BandProps) {
  const rect = { x: BAND_LEFT, y: top, width: BAND_WIDTH, height: foot - top };
  const it = look.course.plan.yarns[yarn];
  return (
    <>
      <InkOf yarn={yarn} rect={rect} look={look} />
      {rect.height < LETTER_ROOM ? null : (
        <Letter x={BAND_LEFT + BAND_WIDTH / 2} y={(top + foot) / 2} letter={it?.letter ?? ''} />
      )}
    </>
  );
}

type Rect = Parameters<typeof hatchLines>[1];

interface InkProps {
  /** Index of the yarn. */
  readonly yarn: number;
  readonly rect: Rect;
  readonly look: TapeLook;
}

/** A yarn as the printer has it: in its colour, or in black by its hatching. */
export function InkOf({ yarn, rect, look }: InkProps) {
  const colour = look.course.plan.yarns[yarn]?.colour ?? PAPER;
  return (
    <>
      <rect
        {...rect}
        fill={look.ink === 'colour' ? colour : PAPER}
        stroke="#111111"
        stroke-width={0.15}
      />
      {look.ink === 'black' ? <Hatching style={look.hatch[yarn] ?? 0} rect={rect} /> : null}
    </>
  );
}

const PAPER = '#ffffff';

interface HatchingProps {
  readonly style: number;
  readonly rect: Rect;
}

function Hatching({ style, rect }: HatchingProps) {
  const d = hatchLines(style, rect)
    .map(({ x1, y1, x2, y2 }) => `M${near(x1)} ${near(y1)}L${near(x2)} ${near(y2)}`)
    .join('');
  return d === '' ? null : <path d={d} stroke="#111111" stroke-width={0.18} fill="none" />;
}

const near = (mm: Mm) => Math.round(mm * 1000) / 1000;

/** On a plate, so that it reads on every colour and hatching. */
export function Letter({
  x,
  y,
  letter,
}: {
  readonly x: Mm;
  readonly y: Mm;
  readonly letter: string;
}) {
  return (
    <>
      <circle cx={x} cy={y} r={1.75} fill="#ffffff" stroke="#111111" stroke-width={0.12} />
      <text x={x} y={y + 1} font-size={2.8} font-weight="700" text-anchor="middle">
        {letter}
      </text>
    </>
  );
}
