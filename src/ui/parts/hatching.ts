/** Lines over a yarn's colour where there is no room for its letter; its painter comes after the bench stands. */
import { signal } from '@preact/signals';

/** In CSS px. */
export interface HatchBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Hatches boxes of one yarn of the plan on the bench, with lines that run through from one to the next. */
export type HatchPainter = (
  ctx: CanvasRenderingContext2D,
  yarn: number,
  boxes: readonly HatchBox[],
) => void;

export const hatchPainter = signal<HatchPainter | null>(null);
