/** The tape along one edge: where the fell is, what lies woven below it and what comes above. */
import { signal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import {
  isMeasured,
  lengthBefore,
  type PinPlace,
  pieceAtFell,
  pinPlaces,
} from '../../../core/bench/asking.ts';
import { type CoursePiece, openIn } from '../../../core/bench/course.ts';
import { pieceAt } from '../../../core/bench/pickAt.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import { lengthOfPiece, type TapeMark, tapeBands, tapeMarks } from '../../../core/bench/tape.ts';
import { MM_PER_INCH, type Mm, type Units } from '../../../core/measure/length.ts';
import { isNarrow } from '../../device/narrow.ts';
import { ground } from '../../device/theme.ts';
import { length, spread } from '../../format.ts';
import { t } from '../../language/t.ts';
import { putPin } from '../../measuring.ts';
import { Canvas } from '../../parts/canvas.tsx';
import { hatchPainter } from '../../parts/hatching.ts';
import { styleColour } from '../../parts/styleColour.ts';
import type { Box } from '../../parts/useBox.ts';
import type { Session } from '../../state.ts';
import { LeftLine } from './left/lazyLeftLine.ts';
import type { paintTape, TapePalette } from './tapePaint.ts';

/** Loom length shown on one tape. */
const TAPE_WINDOW: Mm = 8 * MM_PER_INCH;

/** Its painter comes a moment after the bench, whose figures do not wait for it. */
const painter = signal<typeof paintTape | null>(null);
void import('./tapePaint.ts').then((it) => {
  painter.value = it.paintTape;
});

interface TapeProps {
  readonly now: Session;
  readonly onMeasure: () => void;
  readonly onLeft: () => void;
  readonly onEndings: () => void;
}

/** The tape itself is the way to measuring; under it lies the pin. */
export function Tape({ now, onMeasure, onLeft, onEndings }: TapeProps) {
  return (
    <aside class="tape" aria-label={t('The tape')}>
      <Ribbon now={now} onMeasure={onMeasure} />
      {isNarrow.value ? <LeftLine now={now} onOpen={onLeft} /> : null}
      <button type="button" class="button bench" onClick={putPin}>
        <PinSign />
        {t('Pin')}
      </button>
      <button type="button" class="button bench" onClick={onEndings} aria-haspopup="dialog">
        <EndSign />
        {t('Endings')}
      </button>
    </aside>
  );
}

function PinSign() {
  return (
    <svg class="bench-sign" viewBox="0 0 40 40" aria-hidden="true">
      <circle cx="20" cy="11" r="8" class="sign-fill" />
      <path d="M20 19 V36" class="sign-strong" />
    </svg>
  );
}

/** The last picks of a cloth, and the bar that ends it. */
function EndSign() {
  return (
    <svg class="bench-sign" viewBox="0 0 40 40" aria-hidden="true">
      <path d="M4 8 H36 M4 14 H36" class="sign-strong" />
      <path d="M6 22 H34 M6 28 H34 M6 34 H34" class="sign-faint" />
    </svg>
  );
}

function Ribbon({ now, onMeasure }: Pick<TapeProps, 'now' | 'onMeasure'>) {
  const { course, pick } = now.progress;
  const piece = pieceAt(course, pick);
  const { units } = now.plan;
  const fell = lengthOfPiece(course, piece, pick);
  const stretches = estimatedIn(now, piece);
  const open = openIn(course, piece);
  const endless = open !== null && piece.unseen === 0;
  const paint = usePainter(now, { piece, fell, endless, stretches });
  const about = stretches.length > 0 ? '≈ ' : '';
  return (
    <div class="tape-ribbon">
      <button
        type="button"
        class="tape-open"
        aria-label={t('Measure the fell')}
        onClick={onMeasure}
      >
        <Canvas
          class="tape-canvas"
          label={t('Blocks to come above the fell, the woven cloth below it')}
          paint={paint}
          when="after"
        />
      </button>
      <span class="tape-fell">
        <strong>{`${about}${withoutUnit(length(fell, units))}`}</strong>
        <span>
          {endless
            ? UNIT_WORDS[units]
            : t('of {length}', { length: length(piece.loomLength, units) })}
        </span>
        <Unsure progress={now.progress} units={units} byEye={open === pick} />
      </span>
    </div>
  );
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Stretches of the piece whose picks were worked out, as lengths. */
function estimatedIn({ progress }: Session, piece: CoursePiece): readonly Stretch[] {
  const { course, estimated } = progress;
  return estimated
    .filter((it) => it.to > piece.firstPick && it.from < piece.firstPick + piece.picks)
    .map((it) => ({
      from: lengthOfPiece(course, piece, it.from),
      to: lengthOfPiece(course, piece, it.to),
    }));
}

interface RibbonLook {
  readonly piece: CoursePiece;
  readonly fell: number;
  /** By eye, with no length it is meant to have. */
  readonly endless: boolean;
  readonly stretches: readonly Stretch[];
}

function usePainter(now: Session, { piece, fell, endless, stretches }: RibbonLook) {
  const { units, yarns } = now.plan;
  const hatch = hatchPainter.value;
  const draw = painter.value;
  const palette = useMemo(readPalette, [ground.value]);
  const marks = useMarks(now, piece);
  const look = useMemo(
    () => ({
      colours: yarns.map((yarn) => yarn.colour),
      letters: yarns.map((yarn) => yarn.letter),
    }),
    [yarns],
  );
  const { course } = now.progress;
  const bands = tapeBands(course, piece, fell - TAPE_WINDOW, fell + TAPE_WINDOW);
  const pieceLength = endless ? Number.POSITIVE_INFINITY : piece.loomLength;
  return (ctx: CanvasRenderingContext2D, box: Box) =>
    draw?.(ctx, {
      ...box,
      window: TAPE_WINDOW,
      units,
      fell,
      pieceLength,
      bands,
      marks,
      estimated: stretches,
      palette,
      hatch,
      ...look,
    });
}

function useMarks({ progress }: Session, piece: CoursePiece) {
  const { course, dues, marks } = progress;
  const planned = useMemo(() => tapeMarks(course, dues, piece), [course, dues, piece]);
  return marks.length === 0 ? planned : [...planned, ...pinPlaces(progress).map(pinMark)];
}

interface UnsureProps {
  readonly progress: Progress;
  readonly units: Units;
  readonly byEye: boolean;
}

/** How well the length of the whole piece is known, or by eye that of what is woven, once anything was measured. */
function Unsure({ progress, units, byEye }: UnsureProps) {
  if (!isMeasured(progress)) return null;
  const pick = byEye ? progress.pick : pieceAtFell(progress).end;
  return <span>{spread(lengthBefore(progress, pick), units)}</span>;
}

const UNIT_WORDS: Record<Units, string> = { inch: 'in', metric: 'cm' };

const pinMark = ({ loomLength, number }: PinPlace): TapeMark => ({
  kind: 'pin',
  at: loomLength,
  number,
});

/** The line below says the unit; here there is only room for the number. */
function withoutUnit(text: string): string {
  return text.replace(/ [a-z]+$/, '');
}

function readPalette(): TapePalette {
  return {
    ground: styleColour('--panel'),
    ink: styleColour('--ink'),
    quiet: styleColour('--quiet'),
    accent: styleColour('--accent'),
  };
}
