/** A canvas as large as its place, painted whenever that place or the picture changes. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { type Box, useBox } from './useBox.ts';

export interface CanvasProps {
  readonly class?: string;
  /** What the picture shows, in words. */
  readonly label: string;
  /** Paints in CSS pixels; called before the browser paints the frame. */
  readonly paint: (ctx: CanvasRenderingContext2D, room: Box) => void;
}

export function Canvas({ class: name, label, paint }: CanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const room = useBox(canvas);
  useLayoutEffect(() => {
    const it = canvas.current;
    const ctx = it?.getContext('2d') ?? null;
    if (it === null || ctx === null || room === null) return;
    const width = Math.round(room.width * room.dpr);
    const height = Math.round(room.height * room.dpr);
    if (it.width !== width) it.width = width;
    if (it.height !== height) it.height = height;
    ctx.setTransform(room.dpr, 0, 0, room.dpr, 0, 0);
    paint(ctx, room);
  });
  return <canvas ref={canvas} class={name} role="img" aria-label={label} />;
}
