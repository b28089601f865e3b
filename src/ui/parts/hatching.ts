/** Lines over a yarn's colour where there is no room for its letter; its painter comes after the bench stands. */
import { signal } from '@preact/signals';

/** Hatches a box (CSS px) of one yarn of the plan on the bench. */
export type HatchPainter = (
  ctx: CanvasRenderingContext2D,
  yarn: number,
  box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
) => void;

export const hatchPainter = signal<HatchPainter | null>(null);
