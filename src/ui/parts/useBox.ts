/** The size of an element, measured again whenever it, or the page's zoom, changes. */
import type { RefObject } from 'preact';
import { useLayoutEffect, useState } from 'preact/hooks';

export interface Box {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  /** Device pixels in one of them. */
  readonly dpr: number;
}

export function useBox(element: RefObject<HTMLElement | null>): Box | null {
  const [box, setBox] = useState<Box | null>(null);
  useLayoutEffect(() => {
    const it = element.current;
    if (it === null) return;
    const measure = () => {
      const { clientWidth: width, clientHeight: height } = it;
      const dpr = Math.min(devicePixelRatio || 1, 3);
      setBox((old) =>
        old?.width === width && old.height === height && old.dpr === dpr
          ? old
          : { width, height, dpr },
      );
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(it);
    addEventListener('resize', measure);
    return () => {
      watch.disconnect();
      removeEventListener('resize', measure);
    };
  }, [element]);
  return box;
}
