/** What is seen to once the first screen stands, or could not be made to stand. */
import { listenForInstall } from './device/install.ts';
import { askToPersist } from './device/persistence.ts';
import { lookForRoom } from './device/room.ts';
import { registerWorker } from './device/updates.ts';
import { watchWeaving } from './keeping/watchWeaving.ts';
import { keepFolds } from './keepingFold.ts';
import { language } from './language/t.ts';

/** An error that leaves nothing on the screen gets so long to mend itself (ms). */
const GRACE_MS = 1000;
/** How often it is looked whether something is on the screen, until something is. */
const LOOK_MS = 250;
/** How often it is looked how much room is left. */
const HOUR_MS = 3_600_000;
/** Milliseconds until half hours of weaving are looked for. */
const QUIET_MS = 3000;

/** The words for a failure are in the page itself, in each language, from before any script. */
export function sayNotStarted(why: unknown): void {
  const reason = document.getElementById('not-started-why');
  if (reason !== null) reason.textContent = String(why);
  const words = document.getElementById('not-started');
  if (words === null) return;
  words.hidden = false;
  words.dataset.failed = '';
}

/** Also after a failure: only a newer version can mend what this one does wrong. */
export function lookAfter(root: HTMLElement): void {
  const shown = language === 'fr' ? 'fr' : 'en';
  for (const it of document.querySelectorAll<HTMLElement>('#not-started [lang]'))
    it.hidden = it.lang !== shown;
  const isEmpty = () => root.textContent?.trim() === '';
  // Code that was fetched late may still come: only what is there takes the words away.
  const looking = setInterval(() => {
    if (isEmpty()) return;
    clearInterval(looking);
    document.getElementById('not-started')?.setAttribute('hidden', '');
  }, LOOK_MS);
  // A screen that throws while it is drawn leaves an empty page behind.
  const look = (why: unknown) =>
    setTimeout(() => {
      if (isEmpty()) sayNotStarted(why);
    }, GRACE_MS);
  addEventListener('error', (event) => look(event.message));
  addEventListener('unhandledrejection', (event) => look(event.reason));
  listenForInstall();
  registerWorker();
  void askToPersist();
  void lookForRoom();
  setInterval(() => void lookForRoom(), HOUR_MS);
  keepFolds();
  setTimeout(() => void watchWeaving().catch(() => undefined), QUIET_MS);
}
