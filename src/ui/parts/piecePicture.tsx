/** A whole piece in little, lying on its side: one pixel a cell, scaled; what is not woven yet is pale. */

import { useRef, useState } from 'preact/hooks';
import { type Course, openIn } from '../../core/bench/course.ts';
import { lengthOfPiece } from '../../core/bench/tape.ts';
import { t } from '../language/t.ts';
import { Canvas } from './canvas.tsx';
import { cellsOf, shrunk } from './cells.ts';
import type { Box } from './useBox.ts';
import { useWhenSeen } from './whenSeen.ts';

export interface PiecePictureProps {
  /** Null while it is being laid out: its place is kept. */
  readonly course: Course | null;
  readonly piece: number;
  /** Picks woven of the whole course. */
  readonly woven: number;
}

/** The screen stands first; its pictures come as they are seen, one after the other. */
export function PiecePicture({ course, piece, woven }: PiecePictureProps) {
  const place = useRef<HTMLDivElement>(null);
  const [cloth, setCloth] = useState<HTMLCanvasElement | null>(null);
  useWhenSeen(place, () => {
    if (course !== null) setCloth(pictureOf(course, piece));
  }, [course, piece]);
  return (
    <div ref={place} class="piece-picture">
      {course === null || cloth === null ? null : (
        <Painted course={course} piece={piece} woven={woven} cloth={cloth} />
      )}
    </div>
  );
}

interface PaintedProps {
  readonly course: Course;
  readonly piece: number;
  readonly woven: number;
  readonly cloth: HTMLCanvasElement;
}

function Painted({ course, piece, woven, cloth }: PaintedProps) {
  const first = course.pieces[piece]?.firstPick ?? 0;
  const share = Math.min(1, Math.max(0, (woven - first) / cloth.height));
  const paint = (ctx: CanvasRenderingContext2D, box: Box) => {
    const { height, dpr } = box;
    ctx.clearRect(0, 0, box.width, height);
    if (cloth.height === 0) return;
    const width = box.width * knownShare(course, piece);
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
      label={t('The cloth of {name}', { name: course.plan.pieces[piece]?.name ?? '' })}
      paint={paint}
    />
  );
}

/** How much of a piece its picks fill: by eye what is woven, of the length it is meant to have. */
function knownShare(course: Course, index: number): number {
  const piece = course.pieces[index];
  const open = piece === undefined ? null : openIn(course, piece);
  if (piece === undefined || open === null || piece.unseen === 0) return 1;
  return lengthOfPiece(course, piece, open) / piece.loomLength;
}

function pictureOf(course: Course, index: number): HTMLCanvasElement {
  const piece = course.pieces[index];
  const { firstPick = 0, picks = 0 } = piece ?? {};
  const end = (piece === undefined ? null : openIn(course, piece)) ?? firstPick + picks;
  return cellsOf(course, index, firstPick, end);
}
