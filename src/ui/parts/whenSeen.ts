/** Costly work for what stands on the screen only: done once it is seen, in a quiet moment. */
import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';
import { whenQuiet } from '../device/quiet.ts';

/** How far below the screen it counts as seen: a finger scrolls faster than a picture is painted. */
const NEAR = '300px';

/** Does the work again when what it `about` changes. */
export function useWhenSeen(
  element: RefObject<Element | null>,
  work: () => void,
  about: readonly unknown[],
): void {
  useEffect(() => {
    const it = element.current;
    if (it === null) return;
    let callOff = () => {};
    const watch = new IntersectionObserver(
      (entries) => {
        if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
        watch.disconnect();
        callOff = whenQuiet(work);
      },
      { rootMargin: NEAR },
    );
    watch.observe(it);
    return () => {
      watch.disconnect();
      callOff();
    };
  }, about);
}
