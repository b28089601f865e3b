/** A canvas as large as its place, painted whenever that place or the picture changes. */
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import { whenQuiet } from '../device/quiet.ts';
import { type Plate, plateOf, press } from './cloth/plate.ts';
import { type Box, useBox } from './useBox.ts';

export interface CanvasProps {
  readonly class?: string;
  /** What the picture shows, in words; where they take work, they are found when it is painted. */
  readonly label: string | (() => string);
  /** Paints in CSS pixels; the very same function is taken to paint the same. */
  readonly paint: (ctx: CanvasRenderingContext2D, room: Box) => void;
  /**
   * `after`: a change waits until what it came with is shown and asked of the disk, and so does the first
   * picture; a new size never does. What is shown is then a finished picture, which costs nothing in the
   * frames in which it stays the same.
   */
  readonly when?: 'before' | 'after';
}

/** Milliseconds after the frame that a change waits at most, however busy the page is. */
const AFTER_MS = 100;

/** Painted before the browser paints the frame, unless told otherwise. */
export function Canvas({ class: name, label, paint, when = 'before' }: CanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const room = useBox(canvas, when);
  const plate = useRef<Plate | null>(null);
  const painted = useRef<{ readonly room: Box | null; readonly paint: typeof paint } | null>(null);
  const paintOnce = () => {
    if (painted.current?.room === room && painted.current.paint === paint) return;
    painted.current = { room, paint };
    if (canvas.current === null) return;
    plate.current ??= when === 'after' ? plateOf(canvas.current) : bare(canvas.current);
    paintIn(plate.current.sheet, room, paint);
    press(plate.current);
    if (typeof label === 'function') nameAs(canvas.current, label());
  };
  useLayoutEffect(() => {
    const isResized = painted.current !== null && painted.current.room !== room;
    if (when === 'before' || isResized) paintOnce();
  });
  useEffect(() => (when === 'after' ? whenQuiet(paintOnce, AFTER_MS) : undefined));
  const told = typeof label === 'function' ? {} : ({ role: 'img', 'aria-label': label } as const);
  return <canvas ref={canvas} class={name} {...told} />;
}

/** Until then it shows nothing that could have a name. */
function nameAs(canvas: HTMLCanvasElement, words: string): void {
  canvas.setAttribute('role', 'img');
  canvas.setAttribute('aria-label', words);
}

const bare = (canvas: HTMLCanvasElement): Plate => ({ canvas, sheet: canvas });

function paintIn(it: HTMLCanvasElement, room: Box | null, paint: CanvasProps['paint']): void {
  const ctx = it.getContext('2d');
  if (ctx === null || room === null) return;
  const width = Math.round(room.width * room.dpr);
  const height = Math.round(room.height * room.dpr);
  if (it.width !== width) it.width = width;
  if (it.height !== height) it.height = height;
  ctx.setTransform(room.dpr, 0, 0, room.dpr, 0, 0);
  paint(ctx, room);
}
