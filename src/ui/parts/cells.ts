/** Picks of a course as a picture of one pixel a cell, and that picture in another size. */
import type { Course } from '../../core/bench/course.ts';
import { pickRows } from '../../core/bench/scene.ts';
import { clothCells } from '../../core/plan/clothPicture.ts';
import { threadsOf } from './threadsOf.ts';

/** Picks `from` to `to` of one piece, the first one uppermost, the ends from the left. */
export function cellsOf(
  course: Course,
  index: number,
  from: number,
  to: number,
): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  // Without a pick it has no size: a canvas has one of its own otherwise.
  canvas.width = 0;
  canvas.height = 0;
  const piece = course.pieces[index];
  if (piece === undefined || to <= from) return canvas;
  const { ends, colours, lifts } = threadsOf(course.plan);
  const rows = pickRows(course, piece, from, to);
  const cells = clothCells({
    ends,
    picks: Uint32Array.from(rows, (row) => colours[row.yarn ?? 0] ?? 0),
    sheds: Uint8Array.from(rows, (row) => row.shed),
    lifts,
  });
  canvas.width = ends.length;
  canvas.height = rows.length;
  const image = new ImageData(
    new Uint8ClampedArray(cells.buffer as ArrayBuffer),
    ends.length,
    rows.length,
  );
  canvas.getContext('2d')?.putImageData(image, 0, 0);
  return canvas;
}

/**
 * Halved until it is clearly smaller than wanted, and then drawn larger: at about one cell a pixel
 * one and one would beat with the pixels, and show patterns nobody wove. The share is ours, by looking.
 */
export function shrunk(
  picture: HTMLCanvasElement,
  width: number,
  height: number,
): HTMLCanvasElement {
  const halves = [
    picture.width > Math.max(1, SMALLER * width),
    picture.height > Math.max(1, SMALLER * height),
  ] as const;
  if (!halves[0] && !halves[1]) return picture;
  const half = document.createElement('canvas');
  half.width = halves[0] ? Math.ceil(picture.width / 2) : picture.width;
  half.height = halves[1] ? Math.ceil(picture.height / 2) : picture.height;
  half.getContext('2d')?.drawImage(picture, 0, 0, half.width, half.height);
  return shrunk(half, width, height);
}

const SMALLER = 0.7;
