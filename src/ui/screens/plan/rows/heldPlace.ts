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
    if (held.current !== null && root.current !== null) hold(root.current, held.current);
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

function hold(root: HTMLElement, { anchor, top }: Held): void {
  const now = root.querySelector<HTMLElement>(`[data-anchor="${anchor}"]`);
  const isMove = anchor === 'tool-up' || anchor === 'tool-down';
  if (!isMove) setSlack(root, 0);
  if (now === null) return;
  now.focus({ preventScroll: true });
  const missing = () => now.getBoundingClientRect().top - top;
  scrollerOf(now).scrollTop += missing();
  // At the top of the page nothing can be scrolled away: moves get room there until they are over.
  if (isMove && missing() !== 0) setSlack(root, slackOf(root) - missing());
}

function slackOf(root: HTMLElement): number {
  return Number.parseFloat(root.style.marginTop) || 0;
}

function setSlack(root: HTMLElement, slack: number): void {
  root.style.marginTop = slack > 0 ? `${slack}px` : '';
}

function scrollerOf(element: Element): Element {
  for (let it = element.parentElement; it !== null; it = it.parentElement) {
    const scrolls = /auto|scroll/.test(getComputedStyle(it).overflowY);
    if (scrolls && it.scrollHeight > it.clientHeight) return it;
  }
  return document.scrollingElement ?? document.documentElement;
}
