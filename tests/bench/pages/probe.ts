/**
 * What is run inside the pages to take the times. Every function here is sent as text, so it may use
 * nothing from outside itself; and every page, app or floor, is timed by the very same one.
 *
 * A frame counts as painted when a message sent from its animation callback arrives: the browser
 * styles, lays out and paints between the two. It counts for a tap only once the page shows what the
 * tap changed. Event Timing would say the same, but in steps of 8 ms and not under 16.
 */

/** Milliseconds from the first listener of the tap; null where it was not asked for. */
export interface TapTimes {
  /** From the touch to that listener: what the browser and the machine took before any page could act. */
  readonly delay: number;
  readonly painted: number | null;
  /** The part of `painted` in which the page worked: all but the wait for the screen's next frame. */
  readonly worked: number | null;
  readonly saved: number | null;
}

export interface TapProbe {
  /** Selector of the text that a tap changes; null where nothing is shown. */
  readonly shows: string | null;
  /** Whether the page marks what is saved by `data-saved`. */
  readonly saves: boolean;
}

declare global {
  interface Window {
    benchTaps: TapTimes[];
    benchShown: number | undefined;
    /** Milliseconds each edit took. */
    benchEdits: number[];
    /** Milliseconds from tap to drawn cloth. */
    benchDraws: number[];
    /** When each frame began. */
    benchFrames: number[];
    benchIsWatching: boolean;
  }
}

/** From now on notes in `window.benchTaps` every tap that was painted and saved. */
export function watchTaps({ shows, saves }: TapProbe): void {
  window.benchTaps = [];
  const text = () => (shows === null ? null : document.querySelector(shows)?.textContent);
  type Times = { -readonly [name in keyof TapTimes]: TapTimes[name] };
  let now: (Times & { readonly tapped: number; answered: number; framed: number }) | undefined;
  const settle = () => {
    if (now === undefined) return;
    if ((shows !== null && now.painted === null) || (saves && now.saved === null)) return;
    const { delay, painted, worked, saved } = now;
    window.benchTaps.push({ delay, painted, worked, saved });
    now = undefined;
  };
  const channel = new MessageChannel();
  channel.port1.onmessage = () => {
    if (now === undefined) return;
    now.painted = performance.now() - now.tapped;
    now.worked = now.answered + now.painted - now.framed;
    settle();
  };
  const onClick = (event: MouseEvent) => {
    const before = text();
    const tapped = performance.now();
    const times = { delay: tapped - event.timeStamp, painted: null, worked: null, saved: null };
    now = { ...times, tapped, answered: 0, framed: 0 };
    const onFrame = () => {
      if (now !== undefined) now.framed = performance.now() - tapped;
      if (text() === before) requestAnimationFrame(onFrame);
      else channel.port2.postMessage(null);
    };
    if (shows !== null) requestAnimationFrame(onFrame);
  };
  // The first and the last to hear of a click; what the page's own listeners render is rendered by then.
  addEventListener('click', onClick, { capture: true });
  addEventListener('click', () => {
    if (now !== undefined) now.answered = performance.now() - now.tapped;
  });
  const onSaved = (changes: readonly MutationRecord[]) => {
    const last = changes.at(-1)?.target;
    if (now === undefined || !(last instanceof HTMLElement)) return;
    if (last.dataset.saved !== 'true') return;
    now.saved = performance.now() - now.tapped;
    settle();
  };
  const observed = { subtree: true, attributes: true, attributeFilter: ['data-saved'] };
  if (saves) new MutationObserver(onSaved).observe(document, observed);
}

/** What a page must show to have started: the text of an element, by selector. */
export type Wanted = readonly (readonly [selector: string, text: string])[];

export function isShown(wanted: Wanted): boolean {
  return wanted.every(([selector, text]) => document.querySelector(selector)?.textContent === text);
}

/** Run before the page's own scripts; notes in `window.benchShown` when all of it is painted. */
export function watchStart(wanted: Wanted): void {
  const isThere = () =>
    wanted.every(([selector, text]) => document.querySelector(selector)?.textContent === text);
  const observer = new MutationObserver(() => {
    if (!isThere()) return;
    observer.disconnect();
    const channel = new MessageChannel();
    channel.port1.onmessage = () => {
      // From the start of the navigation, the service worker's own start included.
      window.benchShown = performance.now();
    };
    requestAnimationFrame(() => channel.port2.postMessage(null));
  });
  observer.observe(document, { subtree: true, childList: true, characterData: true });
}

/**
 * From now on notes in `window.benchEdits` how long each edit took until all that follows from it stood
 * in the page, before any of it was painted. `shows` is the selector of what follows: an observer hears
 * of it when everything that is rendered at once has been.
 */
export function watchEdits(shows: string): void {
  window.benchEdits = [];
  const text = () => document.querySelector(shows)?.textContent;
  let now: { readonly edited: number; readonly before: string | null | undefined } | undefined;
  const onChange = () => {
    const shown = performance.now();
    if (now === undefined || text() === now.before) return;
    window.benchEdits.push(shown - now.edited);
    now = undefined;
  };
  const observed = { subtree: true, childList: true, characterData: true };
  new MutationObserver(onChange).observe(document, observed);
  const onInput = () => {
    now = { before: text(), edited: performance.now() };
  };
  addEventListener('input', onInput, { capture: true });
}

/**
 * From now on notes in `window.benchDraws` how long it took from a click until a picture was painted
 * on a canvas of this selector.
 */
export function watchDraws(canvas: string): void {
  window.benchDraws = [];
  let clicked: number | undefined;
  let isDrawn = false;
  for (const name of ['drawImage', 'putImageData'] as const) {
    const own = CanvasRenderingContext2D.prototype[name] as (...args: unknown[]) => void;
    const noting = function (this: CanvasRenderingContext2D, ...args: unknown[]) {
      if (this.canvas.matches(canvas)) isDrawn = true;
      own.apply(this, args);
    };
    Object.assign(CanvasRenderingContext2D.prototype, { [name]: noting });
  }
  const channel = new MessageChannel();
  channel.port1.onmessage = () => {
    if (clicked === undefined || !isDrawn) return;
    window.benchDraws.push(performance.now() - clicked);
    clicked = undefined;
  };
  const onFrame = () => {
    if (clicked === undefined) return;
    channel.port2.postMessage(null);
    requestAnimationFrame(onFrame);
  };
  const onClick = () => {
    isDrawn = false;
    clicked = performance.now();
    requestAnimationFrame(onFrame);
  };
  addEventListener('click', onClick, { capture: true });
}

/** Notes in `window.benchFrames` when each frame begins, as long as `window.benchIsWatching`. */
export function watchFrames(): void {
  window.benchFrames = [];
  const onFrame = (now: number) => {
    if (!window.benchIsWatching) return;
    window.benchFrames.push(now);
    requestAnimationFrame(onFrame);
  };
  window.benchIsWatching = true;
  requestAnimationFrame(onFrame);
}
