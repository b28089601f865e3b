/** The cloth on the loom as a picture that fills its box and repaints as picks are thrown. */
import { signal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useMemo, useRef } from 'preact/hooks';
import { pixelOf } from '../../core/plan/clothPicture.ts';
import { whenQuiet } from '../device/quiet.ts';
import { clothFrame } from './cloth/frame.ts';
import type { Showing } from './cloth/laid.ts';
import type { ClothMemory } from './cloth/layers.ts';
import type { Painter } from './cloth/painter.ts';
import type { ClothScene, ComingPicks, WovenPicks } from './cloth/scene.ts';
import { type Box, useBox } from './useBox.ts';

/** Comes a moment after the call, which does not wait for it. */
const painter = signal<Painter | null>(null);
void import('./cloth/painter.ts').then((it) => {
  painter.value = it.painter;
});

/** Milliseconds beyond the beat, for a browser that is behind with it. */
const WAIT_MS = 40;

/** Milliseconds after which the first cloth is painted, whatever else there is to do. */
const FIRST_MS = 200;

export interface ClothCanvasProps {
  /** What the picture shows, in words, for those who do not see it; empty inside a named control. */
  readonly label: string;
  /** Colour of every end, from the left as the weaver sits: pixels, as `pixelOf` makes them. */
  readonly ends: Uint32Array;
  /** For every shed one byte an end: 1 where the end is up (`plainLifts`). */
  readonly lifts: readonly Uint8Array[];
  readonly woven: WovenPicks;
  readonly coming: ComingPicks;
  /** The woven picks once the next is thrown; null where none is known. Asked for when nothing else is to do. */
  readonly next: () => WovenPicks | null;
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

/** Fills its parent, which must have a size of its own. Paints what changes before the browser shows it. */
export function ClothCanvas(props: ClothCanvasProps) {
  const root = useRef<HTMLDivElement>(null);
  const scene = useScene(props, useBox(root));
  usePainting(root, scene, props);
  return <div ref={root} {...namedAs(props.label)} style={FILLING} />;
}

/** Without words of its own the picture belongs to what it stands in, and is not read aloud. */
function namedAs(label: string) {
  return label === ''
    ? ({ 'aria-hidden': true } as const)
    : ({ role: 'img', 'aria-label': label } as const);
}

const FILLING = {
  position: 'relative',
  width: '100%',
  height: '100%',
  overflow: 'hidden',
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

function usePainting(
  root: RefObject<HTMLElement | null>,
  scene: ClothScene | undefined,
  { motion, next }: Pick<ClothCanvasProps, 'motion' | 'next'>,
): void {
  const memory = useRef<ClothMemory>({ made: undefined });
  const shown = useRef<ClothScene | undefined>(undefined);
  const how = useRef<Showing>('still');
  const paint = painter.value;
  const show = () => {
    if (paint === null || scene === undefined || scene === shown.current || root.current === null)
      return;
    how.current = motion === 'gentle' && isOneMore(shown.current, scene) ? 'thrown' : 'still';
    shown.current = scene;
    paint.showCloth(root.current, scene, memory.current, how.current);
  };
  useLayoutEffect(() => {
    if (shown.current !== undefined) show();
  }, [scene]);
  // Behind the frame that shows the pick; and the whole cloth behind the first, which tells where the weaver is.
  useEffect(() => {
    if (scene === undefined || paint === null) return;
    const showBehind = () => paint.showBehind(scene, memory.current, how.current);
    if (shown.current !== undefined) return showBehind();
    return inQuiet(show, showBehind);
  }, [scene, paint]);
  useEffect(() => {
    if (scene === undefined || paint === null) return;
    return afterMs(paint.beatMs + WAIT_MS, () => {
      paint.showLoops(scene, memory.current);
      const woven = next();
      if (woven !== null) paint.readyNext(scene, memory.current, woven);
    });
  }, [scene, paint]);
  useEffect(() => {
    // Tablets may empty canvases in the background.
    const refresh = () => {
      if (document.visibilityState !== 'visible') return;
      if (paint === null || root.current === null || shown.current === undefined) return;
      memory.current = { made: undefined };
      paint.showCloth(root.current, shown.current, memory.current, 'still');
      paint.showBehind(shown.current, memory.current, 'still');
    };
    document.addEventListener('visibilitychange', refresh);
    return () => document.removeEventListener('visibilitychange', refresh);
  }, [root, paint]);
}

/** One piece of work after the other, each as soon as nothing waits for the page; answers how to call it off. */
function inQuiet(...works: (() => void)[]): () => void {
  let callOff = () => {};
  const next = () => {
    const work = works.shift();
    if (work === undefined) return;
    callOff = whenQuiet(() => {
      work();
      next();
    }, FIRST_MS);
  };
  next();
  return () => callOff();
}

/** Under a pick that is still on its way to the fell the next must not be seen; answers how to call it off. */
function afterMs(milliseconds: number, work: () => void): () => void {
  let callOff = () => {};
  const timer = setTimeout(() => {
    callOff = whenQuiet(work);
  }, milliseconds);
  return () => {
    clearTimeout(timer);
    callOff();
  };
}

function isOneMore(before: ClothScene | undefined, now: ClothScene): boolean {
  if (before === undefined) return false;
  const picks = ({ woven }: ClothScene) => woven.before + woven.colours.length;
  return picks(now) === picks(before) + 1;
}
