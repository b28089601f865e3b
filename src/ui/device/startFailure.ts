/** When the app does not start: the page says so, and where the data can be taken out. */

export interface StartWatch {
  /** Something is on the screen. May be said more than once. */
  readonly hasStarted: () => void;
  readonly hasFailed: (why: unknown) => void;
}

/** An error that leaves nothing on the screen gets so long to mend itself. */
const GRACE_MS = 1000;

/** Watches over the page. The words for a failure are in the page itself, from before any script. */
export function watchStart(root: HTMLElement): StartWatch {
  const words = document.getElementById('not-started');
  const hasFailed = (why: unknown) => {
    const reason = document.getElementById('not-started-why');
    if (reason !== null) reason.textContent = String(why);
    if (words === null) return;
    words.hidden = false;
    words.dataset.failed = '';
  };
  // A screen that throws while it is drawn leaves an empty page behind.
  const look = (event: ErrorEvent | PromiseRejectionEvent) =>
    setTimeout(() => {
      if (root.textContent?.trim() === '') hasFailed('reason' in event ? event.reason : event.message);
    }, GRACE_MS);
  const hasStarted = () => {
    if (words !== null) words.hidden = true;
    addEventListener('error', look);
    addEventListener('unhandledrejection', look);
  };
  return { hasStarted, hasFailed };
}
