/** A whole piece in little, lying on its side: one pixel a cell, scaled; what is not woven yet is pale. */
import { useMemo } from 'preact/hooks';
import { type Course, openIn } from '../../core/bench/course.ts';
import { pickRows } from '../../core/bench/scene.ts';
import { lengthOfPiece } from '../../core/bench/tape.ts';
import { clothCells } from '../../core/plan/clothPicture.ts';
import { Canvas } from './canvas.tsx';
import { threadsOf } from './threadsOf.ts';
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
      class="piece-picture"
      label={`The cloth of ${course.plan.pieces[piece]?.name ?? ''}`}
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

/** Halved until less than twice the size wanted: a picture shrunk at one go shows patterns nobody wove. */
function shrunk(picture: HTMLCanvasElement, width: number, height: number): HTMLCanvasElement {
  const halves = [picture.width > 2 * width, picture.height > 2 * height] as const;
  if (!halves[0] && !halves[1]) return picture;
  const half = document.createElement('canvas');
  half.width = halves[0] ? Math.ceil(picture.width / 2) : picture.width;
  half.height = halves[1] ? Math.ceil(picture.height / 2) : picture.height;
  half.getContext('2d')?.drawImage(picture, 0, 0, half.width, half.height);
  return shrunk(half, width, height);
}

function pictureOf(course: Course, index: number): HTMLCanvasElement {
  const { plan } = course;
  const canvas = document.createElement('canvas');
  const piece = course.pieces[index];
  if (piece === undefined) return canvas;
  const { ends, colours, lifts } = threadsOf(plan);
  const end = openIn(course, piece) ?? piece.firstPick + piece.picks;
  const rows = pickRows(course, piece, piece.firstPick, end);
  const cells = clothCells({
    ends,
    picks: Uint32Array.from(rows, (row) => colours[row.yarn ?? 0] ?? 0),
    sheds: Uint8Array.from(rows, (row) => row.shed),
    lifts,
  });
  canvas.width = ends.length;
  canvas.height = rows.length;
  if (rows.length === 0) return canvas;
  const image = new ImageData(
    new Uint8ClampedArray(cells.buffer as ArrayBuffer),
    ends.length,
    rows.length,
  );
  canvas.getContext('2d')?.putImageData(image, 0, 0);
  return canvas;
}
