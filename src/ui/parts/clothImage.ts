/** A washed piece as an image of its own, on white and in its own colours, whatever the theme: for paper. */
import type { Course } from '../../core/bench/course.ts';
import { clothPlan } from '../../core/planner/clothPlan.ts';
import { SHARP } from '../../core/planner/eye.ts';
import { drawMarks } from './viewer/marks.ts';
import { paintGlimpse } from './viewer/paintGlimpse.ts';

export interface ImageRoom {
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}

const WHITE = 0xffffffff;
const INK = '#23201c';

/** A data URL; a long piece in a wide room lies on its side, its beginning at the left. */
export function clothImage(course: Course, piece: number, room: ImageRoom): string {
  const upright = clothPlan(course, { state: 'washed', piece, aspect: room.width / room.height });
  const lies = room.width > room.height && upright.height > upright.width;
  const { width, height } = lies ? { width: room.height, height: room.width } : room;
  const canvas = sheetOf(width, height);
  const ctx = canvas.getContext('2d', { alpha: false });
  if (ctx === null) return '';
  const scale = Math.min(width / upright.width, height / upright.height) * 0.98;
  const [x, y] = [(width - upright.width * scale) / 2, (height - upright.height * scale) / 2];
  const corner = { left: -x / scale, top: -y / scale, scale };
  paintGlimpse(ctx, upright, { ...corner, width, height }, { blur: SHARP, ground: WHITE });
  ctx.setTransform(1, 0, 0, 1, 0, 0);
  drawMarks(ctx, upright, { x, y, scale, width, height }, { ink: INK, line: 2 });
  return (lies ? laidDown(canvas) : canvas).toDataURL('image/jpeg', 0.9);
}

function laidDown(upright: HTMLCanvasElement): HTMLCanvasElement {
  const canvas = sheetOf(upright.height, upright.width);
  const ctx = canvas.getContext('2d');
  ctx?.translate(canvas.width, 0);
  ctx?.rotate(Math.PI / 2);
  ctx?.drawImage(upright, 0, 0);
  return canvas;
}

function sheetOf(width: number, height: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  return canvas;
}
