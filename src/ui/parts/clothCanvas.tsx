/** The cloth on the loom as a picture that fills its box and repaints as picks are thrown. */
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { pixelOf } from '../../core/plan/clothPicture.ts';
import { clothFrame } from './cloth/frame.ts';
import type { ClothMemory } from './cloth/paint.ts';
import { clothMemory, paintCloth } from './cloth/paint.ts';
import type { ClothScene, ComingPicks, WovenPicks } from './cloth/scene.ts';
import { type Box, useBox } from './useBox.ts';

export interface ClothCanvasProps {
  /** What the picture shows, in words, for those who do not see it; empty inside a named control. */
  readonly label: string;
  /** Colour of every end, from the left as the weaver sits: pixels, as `pixelOf` makes them. */
  readonly ends: Uint32Array;
  /** For every shed one byte an end: 1 where the end is up (`plainLifts`). */
  readonly lifts: readonly Uint8Array[];
  readonly woven: WovenPicks;
  readonly coming: ComingPicks;
  /** Distance from pick to pick over distance from end to end, on the loom. */
  readonly aspect: number;
  /** The page behind the cloth, `#rrggbb`. */
  readonly ground: string;
  readonly openShed?: number;
  /** `still` where the weaver wants no motion: the thrown pick is beaten in at once. */
  readonly motion: 'gentle' | 'still';
  /** Where the fell lies, as a share of the height from the top. */
  readonly fellAt?: number;
  /** Room beside the warp, in CSS pixels. */
  readonly gutter?: number;
}

/** Fills its parent, which must have a size of its own. Paints before the browser shows the page. */
export function ClothCanvas(props: ClothCanvasProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const box = useBox(canvas);
  const scene = useScene(props, box);
  usePainting(canvas, scene, props.motion);
  return (
    <div style={{ position: 'relative', width: '100%', height: '100%' }}>
      <canvas ref={canvas} {...namedAs(props.label)} style={FILLING} />
    </div>
  );
}

/** Without words of its own the picture belongs to what it stands in, and is not read aloud. */
function namedAs(label: string) {
  return label === ''
    ? ({ 'aria-hidden': true } as const)
    : ({ role: 'img', 'aria-label': label } as const);
}

/** Out of the flow: a canvas in it would stretch the box it is measured by. */
const FILLING = {
  display: 'block',
  position: 'absolute',
  inset: '0',
  width: '100%',
  height: '100%',
} as const;

function useScene(props: ClothCanvasProps, box: Box | null): ClothScene | undefined {
  const { ends, lifts, woven, coming, aspect, ground, openShed, fellAt, gutter } = props;
  const frame = useMemo(() => {
    if (box === null || box.width < 1 || box.height < 1) return undefined;
    const room = { ...box, ends: ends.length, aspect };
    return clothFrame({
      ...room,
      ...(fellAt === undefined ? {} : { fellAt }),
      ...(gutter === undefined ? {} : { gutter }),
    });
  }, [box, ends.length, aspect, fellAt, gutter]);
  return useMemo(
    () => frame && { frame, ends, lifts, woven, coming, ground: pixelOf(ground), openShed },
    [frame, ends, lifts, woven, coming, ground, openShed],
  );
}

/** How long a thrown pick takes to the fell, in milliseconds, and how far above it is laid. */
const BEAT_MS = 110;
const LAID_AT = 0.85;

function usePainting(
  canvas: RefObject<HTMLCanvasElement | null>,
  scene: ClothScene | undefined,
  motion: ClothCanvasProps['motion'],
): void {
  const memory = useRef<ClothMemory>(clothMemory());
  const shown = useRef<ClothScene | undefined>(undefined);
  useLayoutEffect(() => {
    if (scene === undefined) return;
    const thrown = motion === 'gentle' && isOneMore(shown.current, scene);
    shown.current = scene;
    const paint = (unbeaten: number) =>
      paintOn(canvas.current, { ...scene, unbeaten }, memory.current);
    return thrown ? beatIn(paint) : paint(0);
  }, [canvas, scene, motion]);
  useEffect(() => {
    const refresh = () => {
      if (document.visibilityState !== 'visible' || shown.current === undefined) return;
      memory.current = clothMemory();
      paintOn(canvas.current, shown.current, memory.current);
    };
    document.addEventListener('visibilitychange', refresh);
    return () => document.removeEventListener('visibilitychange', refresh);
  }, [canvas]);
}

/** Tablets may empty canvases in the background, and a canvas takes a new size only by being emptied. */
function paintOn(canvas: HTMLCanvasElement | null, scene: ClothScene, memory: ClothMemory): void {
  const ctx = canvas?.getContext('2d', { alpha: false });
  if (canvas === null || !ctx) return;
  const { width, height } = scene.frame;
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  paintCloth(ctx, scene, memory);
}

function isOneMore(before: ClothScene | undefined, now: ClothScene): boolean {
  if (before === undefined || before.frame !== now.frame) return false;
  const picks = ({ woven }: ClothScene) => woven.before + woven.colours.length;
  return picks(now) === picks(before) + 1;
}

/** Paints the pick at once, a little above the fell, then closes the gap; the next tap cuts it short. */
function beatIn(paint: (unbeaten: number) => void): () => void {
  let started: number | undefined;
  const step = (now: number) => {
    if (started === undefined) {
      // The same frame that shows the pick laid in: it is painted already.
      started = now;
      request = requestAnimationFrame(step);
      return;
    }
    const left = Math.max(0, 1 - (now - started) / BEAT_MS);
    paint(LAID_AT * left ** 2);
    if (left > 0) request = requestAnimationFrame(step);
  };
  paint(LAID_AT);
  let request = requestAnimationFrame(step);
  return () => cancelAnimationFrame(request);
}
