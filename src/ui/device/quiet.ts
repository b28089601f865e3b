/** The moments in which the browser has nothing else to do. */

/** Milliseconds after which it is done all the same. */
const LATEST_MS = 1500;
/** Where a browser does not tell: long enough for a screen to be painted first. */
const UNTOLD_MS = 60;

/**
 * Does the work in such a moment, in a turn of its own, and after `latestMs` all the same; answers how
 * to call it off.
 */
export function whenQuiet(work: () => void, latestMs = LATEST_MS): () => void {
  if (typeof requestIdleCallback !== 'function') {
    const timer = setTimeout(work, UNTOLD_MS);
    return () => clearTimeout(timer);
  }
  const handle = requestIdleCallback(work, { timeout: latestMs });
  return () => cancelIdleCallback(handle);
}

/** The next of them. */
export const quiet = (): Promise<void> =>
  new Promise((resolve) => {
    whenQuiet(resolve);
  });
