/** A whole piece in little, lying on its side: one pixel a cell, scaled; what is not woven yet is pale. */
import { useMemo } from 'preact/hooks';
import type { Course } from '../../core/bench/course.ts';
import { Canvas } from './canvas.tsx';
import { cellsOf, shrunk } from './cells.ts';
import type { Box } from './useBox.ts';

export interface PiecePictureProps {
  readonly course: Course;
  readonly piece: number;
  /** Picks woven of the whole course. */
  readonly woven: number;
}

export function PiecePicture({ course, piece, woven }: PiecePictureProps) {
  const cloth = useMemo(() => pictureOf(course, piece), [course, piece]);
  const first = course.pieces[piece]?.firstPick ?? 0;
  const share = cloth.height === 0 ? 0 : Math.min(1, Math.max(0, (woven - first) / cloth.height));
  const paint = (ctx: CanvasRenderingContext2D, { width, height, dpr }: Box) => {
    ctx.clearRect(0, 0, width, height);
    ctx.save();
    ctx.translate(0, height);
    ctx.rotate(-Math.PI / 2);
    const small = shrunk(cloth, height * dpr, width * dpr);
    ctx.imageSmoothingQuality = 'high';
    ctx.globalAlpha = 0.4;
    ctx.drawImage(small, 0, 0, height, width);
    ctx.globalAlpha = 1;
    if (share > 0)
      ctx.drawImage(
        small,
        0,
        0,
        small.width,
        Math.max(1, small.height * share),
        0,
        0,
        height,
        width * share,
      );
    ctx.restore();
  };
  return (
    <Canvas
      class="piece-picture"
      label={`The cloth of ${course.plan.pieces[piece]?.name ?? ''}`}
      paint={paint}
    />
  );
}

function pictureOf(course: Course, index: number): HTMLCanvasElement {
  const { firstPick = 0, picks = 0 } = course.pieces[index] ?? {};
  return cellsOf(course, index, firstPick, firstPick + picks);
}
