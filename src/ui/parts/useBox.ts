/** The size of an element, measured again whenever it, or the page's zoom, changes. */
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useState } from 'preact/hooks';

export interface Box {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  /** Device pixels in one of them. */
  readonly dpr: number;
}

/** `after`: not measured before the frame it comes with is painted, which would lay out the page for it alone. */
export function useBox(
  element: RefObject<HTMLElement | null>,
  when: 'before' | 'after' = 'before',
): Box | null {
  const [box, setBox] = useState<Box | null>(null);
  const useMeasuring = when === 'after' ? useEffect : useLayoutEffect;
  useMeasuring(() => {
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
