/** The tape along one edge: where the fell is, what lies woven below it and what comes above. */
import { useMemo } from 'preact/hooks';
import { pieceAt } from '../../../core/bench/pickAt.ts';
import { lengthOfPiece, tapeBands, tapeMarks } from '../../../core/bench/tape.ts';
import { isDark } from '../../device/theme.ts';
import { length } from '../../format.ts';
import { Canvas } from '../../parts/canvas.tsx';
import { styleColour } from '../../parts/styleColour.ts';
import type { Box } from '../../parts/useBox.ts';
import type { Session } from '../../state.ts';
import { paintTape, TAPE_WINDOW, type TapePalette } from './tapePaint.ts';

export function Tape({ now }: { readonly now: Session }) {
  const { course, dues, pick, estimated } = now.progress;
  const piece = pieceAt(course, pick);
  const { units, yarns } = now.plan;
  const fell = lengthOfPiece(course, piece, pick);
  const dark = isDark.value;
  const palette = useMemo(readPalette, [dark]);
  const marks = useMemo(() => tapeMarks(course, dues, piece), [course, dues, piece]);
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
      ...look,
    });
  return (
    <aside class="tape" aria-label="The tape">
      <Canvas
        class="tape-canvas"
        label="Blocks to come above the fell, the woven cloth below it"
        paint={paint}
      />
      <p class="tape-fell">
        <strong>{`${about}${withoutUnit(length(fell, units))}`}</strong>
        <span>of {length(piece.loomLength, units)}</span>
      </p>
    </aside>
  );
}

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
