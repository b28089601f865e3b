/** What is seen to once the first screen stands, or could not be made to stand. */
import { askToPersist } from './device/persistence.ts';
import { quiet } from './device/quiet.ts';
import { lookForRoom } from './device/room.ts';
import { registerWorker } from './device/updates.ts';
import { watchWeaving } from './keeping/watchWeaving.ts';
import { keepFolds } from './keepingFold.ts';
import { LANGUAGES } from './language/languages.ts';
import { language } from './language/t.ts';
import { later } from './parts/lazily.tsx';

/** An error that leaves nothing on the screen gets so long to mend itself (ms). */
const GRACE_MS = 1000;
/** How often it is looked whether something is on the screen, until something is. */
const LOOK_MS = 250;
/** How often it is looked how much room is left. */
const HOUR_MS = 3_600_000;
/** Milliseconds until half hours of weaving are looked for. */
const QUIET_MS = 3000;
/** Milliseconds after which what else there is to see to no longer waits for a screen. */
const LATEST_MS = 5000;
/** Milliseconds after the start until code nobody has asked for is fetched, at the earliest and at the latest. */
const FETCH_MS = { earliest: 2000, latest: 10_000 };

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
  // What a language only begun has no words for is said in English: so a reader, or a voice, must take it.
  const known = LANGUAGES.find(({ code }) => code === language);
  const spoken = known?.isFinished === true ? known.code : 'en';
  document.documentElement.lang = spoken;
  for (const it of document.querySelectorAll<HTMLElement>('#not-started [lang]'))
    it.hidden = it.lang !== spoken;
  const isEmpty = () => root.textContent?.trim() === '';
  // Code that was fetched late may still come: only what is there takes the words away.
  const shown = new Promise<void>((resolve) => {
    const looking = setInterval(() => {
      if (isEmpty()) return;
      clearInterval(looking);
      document.getElementById('not-started')?.setAttribute('hidden', '');
      resolve();
    }, LOOK_MS);
  });
  // A screen that throws while it is drawn leaves an empty page behind.
  const look = (why: unknown) =>
    setTimeout(() => {
      if (isEmpty()) sayNotStarted(why);
    }, GRACE_MS);
  addEventListener('error', (event) => look(event.message));
  addEventListener('unhandledrejection', (event) => look(event.reason));
  // The worker fetches the whole app: not beside what the first screen waits for.
  void Promise.race([shown.then(quiet), pause(LATEST_MS)]).then(seeToTheRest);
}

function seeToTheRest(): void {
  registerWorker();
  void askToPersist();
  void lookForRoom();
  setInterval(() => void lookForRoom(), HOUR_MS);
  keepFolds();
  setTimeout(() => void watchWeaving().catch(() => undefined), QUIET_MS);
  void fetchLater();
}

/** One after the other, and from what the worker keeps: on a first visit nothing is fetched twice. */
async function fetchLater(): Promise<void> {
  await pause(FETCH_MS.earliest);
  await Promise.race([heldByWorker(), pause(FETCH_MS.latest - FETCH_MS.earliest)]);
  // What is fetched may have more to fetch: the list grows meanwhile.
  for (const load of later) {
    await quiet();
    await load().catch(() => undefined);
  }
}

/** A worker that is ready may not have taken the page yet: what it asks for would go to the host. */
async function heldByWorker(): Promise<void> {
  const { serviceWorker } = navigator;
  await serviceWorker?.ready;
  if (serviceWorker === undefined || serviceWorker.controller !== null) return;
  await new Promise((resolve) => {
    serviceWorker.addEventListener('controllerchange', resolve, { once: true });
  });
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));
