/** The tape along one edge: where the fell is, what lies woven below it and what comes above. */
import { useMemo } from 'preact/hooks';
import type { PinPlace } from '../../../core/bench/asking.ts';
import type { CoursePiece } from '../../../core/bench/course.ts';
import { pieceAt } from '../../../core/bench/pickAt.ts';
import { lengthOfPiece, type TapeMark, tapeBands, tapeMarks } from '../../../core/bench/tape.ts';
import type { Units } from '../../../core/measure/length.ts';
import { isNarrow } from '../../device/narrow.ts';
import { ground } from '../../device/theme.ts';
import { length, spread } from '../../format.ts';
import { putPin } from '../../measuring.ts';
import { Canvas } from '../../parts/canvas.tsx';
import { hatchPainter } from '../../parts/hatching.ts';
import { styleColour } from '../../parts/styleColour.ts';
import type { Box } from '../../parts/useBox.ts';
import { believedPiece, pins, type Session } from '../../state.ts';
import { LeftLine } from './left/lazyLeftLine.ts';
import { paintTape, TAPE_WINDOW, type TapePalette } from './tapePaint.ts';

interface TapeProps {
  readonly now: Session;
  readonly onMeasure: () => void;
  readonly onLeft: () => void;
  readonly onEndings: () => void;
}

/** The tape itself is the way to measuring; under it lies the pin. */
export function Tape({ now, onMeasure, onLeft, onEndings }: TapeProps) {
  return (
    <aside class="tape" aria-label="The tape">
      <Ribbon now={now} onMeasure={onMeasure} />
      {isNarrow.value ? <LeftLine plan={now.plan} onOpen={onLeft} /> : null}
      <button type="button" class="button bench" onClick={putPin}>
        <PinSign />
        Pin
      </button>
      <button type="button" class="button bench" onClick={onEndings} aria-haspopup="dialog">
        <EndSign />
        Endings
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
  const { course, pick, estimated } = now.progress;
  const piece = pieceAt(course, pick);
  const { units, yarns } = now.plan;
  const fell = lengthOfPiece(course, piece, pick);
  const hatch = hatchPainter.value;
  const palette = useMemo(readPalette, [ground.value]);
  const marks = useMarks(now, piece);
  const look = useMemo(
    () => ({
      colours: yarns.map((yarn) => yarn.colour),
      letters: yarns.map((yarn) => yarn.letter),
    }),
    [yarns],
  );
  const bands = tapeBands(course, piece, fell - TAPE_WINDOW, fell + TAPE_WINDOW);
  const hatched = estimated
    .filter((it) => it.to > piece.firstPick && it.from < piece.firstPick + piece.picks)
    .map((it) => ({
      from: lengthOfPiece(course, piece, it.from),
      to: lengthOfPiece(course, piece, it.to),
    }));
  const about = hatched.length > 0 ? '≈ ' : '';
  const paint = (ctx: CanvasRenderingContext2D, { width, height }: Box) =>
    paintTape(ctx, {
      width,
      height,
      units,
      fell,
      pieceLength: piece.loomLength,
      bands,
      marks,
      estimated: hatched,
      palette,
      hatch,
      ...look,
    });
  return (
    <div class="tape-ribbon">
      <button type="button" class="tape-open" aria-label="Measure the fell" onClick={onMeasure}>
        <Canvas
          class="tape-canvas"
          label="Blocks to come above the fell, the woven cloth below it"
          paint={paint}
        />
      </button>
      <span class="tape-fell">
        <strong>{`${about}${withoutUnit(length(fell, units))}`}</strong>
        <span>of {length(piece.loomLength, units)}</span>
        <Unsure units={units} />
      </span>
    </div>
  );
}

function useMarks({ progress: { course, dues } }: Session, piece: CoursePiece) {
  const pinned = pins.value;
  return useMemo(
    () => [...tapeMarks(course, dues, piece), ...pinned.map(pinMark)],
    [course, dues, piece, pinned],
  );
}

/** How well the length of the whole piece is known, once anything was measured. */
function Unsure({ units }: { readonly units: Units }) {
  const known = believedPiece.value;
  if (known === null || !known.isMeasured) return null;
  return <span>{spread(known.whole, units)}</span>;
}

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
