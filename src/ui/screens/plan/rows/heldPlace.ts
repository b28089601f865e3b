/**
 * What was tapped stays under the finger when the rows around it fold, unfold or change places: the
 * second tap of `Move up` must not hit another button.
 */
import type { RefObject } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

interface Held {
  /** Its `data-anchor`: the same control may be another element afterwards. */
  readonly anchor: string;
  /** CSS pixels from the top of the window. */
  readonly top: number;
}

/** Answers what to call with each tap inside `root`, before it changes anything. */
export function useHeldPlace(root: RefObject<HTMLElement | null>): (event: Event) => void {
  const held = useRef<Held | null>(null);
  useLayoutEffect(() => {
    const it = held.current;
    if (it === null) return;
    const now = root.current?.querySelector<HTMLElement>(`[data-anchor="${it.anchor}"]`);
    if (now === null || now === undefined) return;
    now.focus({ preventScroll: true });
    const moved = now.getBoundingClientRect().top - it.top;
    if (moved !== 0) scrollerOf(now).scrollTop += moved;
  });
  return (event) => {
    const target = event.target instanceof Element ? event.target.closest('[data-anchor]') : null;
    const anchor = target?.getAttribute('data-anchor');
    if (target === null || anchor === null || anchor === undefined) return;
    held.current = { anchor, top: target.getBoundingClientRect().top };
    // Two frames later the tap has had its effect; what scrolls then is the weaver.
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        held.current = null;
      }),
    );
  };
}

function scrollerOf(element: Element): Element {
  for (let it = element.parentElement; it !== null; it = it.parentElement) {
    const scrolls = /auto|scroll/.test(getComputedStyle(it).overflowY);
    if (scrolls && it.scrollHeight > it.clientHeight) return it;
  }
  return document.scrollingElement ?? document.documentElement;
}
