/** A canvas as large as its place, painted whenever that place or the picture changes. */
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';

export interface Room {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  readonly dpr: number;
}

export interface CanvasProps {
  readonly class?: string;
  /** What the picture shows, in words. */
  readonly label: string;
  /** Paints in CSS pixels; called before the browser paints the frame. */
  readonly paint: (ctx: CanvasRenderingContext2D, room: Room) => void;
}

export function Canvas({ class: name, label, paint }: CanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const room = useRoom(canvas);
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

function useRoom(canvas: { readonly current: HTMLCanvasElement | null }): Room | null {
  const [room, setRoom] = useState<Room | null>(null);
  useEffect(() => {
    const it = canvas.current;
    if (it === null) return;
    const measure = () => {
      const { width, height } = it.getBoundingClientRect();
      setRoom({ width, height, dpr: devicePixelRatio });
    };
    const watch = new ResizeObserver(measure);
    watch.observe(it);
    measure();
    return () => watch.disconnect();
  }, [canvas]);
  return room;
}
