/** One strip of the tape: scale at its left, the bands of weft in the middle, words at its right. */

import type { Course } from '../../../../core/bench/course.ts';
import type { Due } from '../../../../core/bench/dues.ts';
import { tapeBands } from '../../../../core/bench/tape.ts';
import type { Mm } from '../../../../core/measure/length.ts';
import {
  paperMarks,
  STRIP_WIDTH,
  type Strip,
  TAPE_OVERLAP,
  TAPE_TAB,
  ticksOf,
  yOn,
} from '../../../../core/paper/tape.ts';
import { t } from '../../../language/t.ts';
import { Band } from './band.tsx';
import { BlockWords } from './blockWords.tsx';
import { Mark } from './mark.tsx';

export interface TapeLook {
  readonly course: Course;
  readonly dues: readonly Due[];
  readonly ink: 'colour' | 'black';
  /** Style of hatching of each yarn index. */
  readonly hatch: readonly number[];
}

/** Lanes, from the left edge of the strip. */
export const BAND_LEFT: Mm = 8.5;
export const BAND_WIDTH: Mm = 7;
export const WORDS_LEFT: Mm = BAND_LEFT + BAND_WIDTH;

export interface StripProps {
  readonly strip: Strip;
  readonly look: TapeLook;
}

export function StripDrawing({ strip, look }: StripProps) {
  const { course, dues } = look;
  const piece = course.pieces[strip.pieces[0] ?? -1];
  if (piece === undefined) return null;
  const { from, drawnTo } = strip;
  const bands = tapeBands(course, piece, from, drawnTo);
  const marks = paperMarks(course, dues, piece).filter(
    // A tape begins and ends on its own strips; anything else stands on both where they join.
    ({ at }) => at >= from - 1e-6 && at <= drawnTo + 1e-6,
  );
  return (
    <g transform={`translate(${strip.left} 0)`}>
      {bands.map((band) => (
        <Band
          key={band.from}
          top={yOn(strip, Math.min(band.to, drawnTo))}
          foot={yOn(strip, Math.max(band.from, from))}
          yarn={band.yarn}
          look={look}
        />
      ))}
      <Scale strip={strip} look={look} />
      <BlockWords strip={strip} look={look} piece={piece} />
      {marks.map((mark) => (
        <Mark key={`${mark.kind} ${mark.at}`} kind={mark.kind} y={yOn(strip, mark.at)} />
      ))}
      <Ends strip={strip} look={look} />
    </g>
  );
}

const TICKS = { small: 1.4, half: 2.4, whole: 3.4 } as const;

function Scale({ strip, look }: StripProps) {
  const ticks = ticksOf(look.course.plan.units, strip.from, strip.drawnTo);
  const d = ticks.map(({ at, rank }) => `M0 ${yOn(strip, at)}h${TICKS[rank]}`).join('');
  return (
    <>
      <path d={d} stroke="#111111" stroke-width={0.2} fill="none" />
      {ticks.map(({ at, number }) =>
        number === null ? null : (
          <text key={number} x={3.8} y={numberAt(strip, at)} font-size={3.4}>
            {number}
          </text>
        ),
      )}
    </>
  );
}

/** Beside its tick; where the strip is cut off, just above it. */
function numberAt(strip: Strip, at: Mm): Mm {
  return yOn(strip, at) + (at - strip.from < 1e-6 ? -0.6 : 1.2);
}

/** The outline to cut along, the join with the next strip, and what this strip is. */
function Ends({ strip, look }: StripProps) {
  const isFirst = strip.part === 0;
  const isLast = strip.part === strip.parts - 1;
  const top = isLast ? yOn(strip, strip.to) - TAPE_TAB : yOn(strip, strip.to) - TAPE_OVERLAP;
  const foot = isFirst ? strip.foot + TAPE_TAB : strip.foot;
  const names = strip.pieces.map((piece) => look.course.plan.pieces[piece]?.name ?? '');
  return (
    <>
      <rect
        x={0}
        y={top}
        width={STRIP_WIDTH}
        height={foot - top}
        fill="none"
        stroke="#111111"
        stroke-width={0.15}
        stroke-dasharray="2 1"
      />
      {isFirst ? (
        <Tab y={strip.foot + 3} words={t('pin here: {names}', { names: names.join(', ') })} />
      ) : null}
      {isLast ? (
        <Tab y={top + 2.8} words={t('the end: {names}', { names: names.join(', ') })} />
      ) : null}
      {isLast ? null : <Join strip={strip} />}
    </>
  );
}

/** Signs that fit across the strip in the small type, and lines on a tab. */
const ACROSS = 18;
const LINES = 3;

function Tab({ y, words }: { readonly y: Mm; readonly words: string }) {
  return (
    <>
      {wrapped(words).map((line, i) => (
        <text key={line} x={1} y={y + i * 2.7} font-size={2.4}>
          {line}
        </text>
      ))}
    </>
  );
}

function wrapped(words: string): readonly string[] {
  const lines: string[] = [''];
  for (const word of words.split(' ')) {
    const last = lines.at(-1) ?? '';
    const longer = last === '' ? word : `${last} ${word}`;
    if (longer.length <= ACROSS) lines[lines.length - 1] = longer;
    else lines.push(word.slice(0, ACROSS));
  }
  const shown = lines.slice(0, LINES);
  return lines.length > LINES ? [...shown.slice(0, -1), `${shown.at(-1)} …`] : shown;
}

/** Up to here the next strip is glued on, its foot on this line. */
function Join({ strip }: { readonly strip: Strip }) {
  const y = yOn(strip, strip.to);
  const right = STRIP_WIDTH;
  return (
    <>
      <path
        d={`M0 ${y}H${right}`}
        stroke="#111111"
        stroke-width={0.3}
        stroke-dasharray="0.8 0.8"
        fill="none"
      />
      <path d={`M${right} ${y}l-2 -1.6v3.2z`} fill="#111111" />
      <text x={WORDS_LEFT + 1} y={y - 3.4} font-size={2.6}>
        {t('glue {part}', { part: strip.part + 2 })}
      </text>
    </>
  );
}
