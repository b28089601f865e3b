/** Composition root: opens the store, replays the log, renders. */
import { options, render } from 'preact';
import type { Readers } from './store/database.ts';
import { openStore } from './store/open.ts';
import { type Store, StoreError } from './store/store.ts';
import { allSaved, newId, start } from './ui/actions.ts';
import { App } from './ui/app.tsx';
import { keepBeforeUpgrade } from './ui/beforeUpgrade.ts';
import { followAddress } from './ui/device/address.ts';
import { listenForInstall } from './ui/device/install.ts';
import { followTheme } from './ui/device/theme.ts';
import { followWindows } from './ui/device/windows.ts';
import { type First, readFirst } from './ui/loading.ts';
import { Bars } from './ui/parts/bars.tsx';
import { foldAtHand } from './ui/resuming.ts';
import { isStuck, trouble } from './ui/state.ts';
// What the first screen shows of it, what comes after looks for: neither may hang on the other's file.
import './ui/device/room.ts';
import './ui/style/base.css';
import './ui/style/column.css';
import './ui/style/controls.css';

/** Milliseconds between two tries while another window holds the data. */
const AGAIN_MS = 1000;
/** Milliseconds after the start until both copies are read through. */
const CHECK_MS = 8000;

/** More than lie between a tap and the transaction that saves it, in microtasks. */
const HEAD_START = 12;

// What a tap writes is asked of the disk before the bench is drawn, in the same turn: the disk works
// meanwhile, and no frame is later for it.
options.debounceRendering = (draw) => {
  let left = HEAD_START;
  const next = (): void => {
    left -= 1;
    if (left === 0) draw();
    else queueMicrotask(next);
  };
  next();
};

const found = document.getElementById('app');
if (found === null) throw new Error('got a page without #app');
const root: HTMLElement = found;

/** What the first screen does without. */
const following = () => import('./ui/following.ts');
const afterStart = () => import('./ui/afterStart.ts');

/** The store, or null when there is nothing to go on with. */
async function openOrSay(onReadable: (read: Readers) => void): Promise<Store | null> {
  try {
    const about = { by: newId(), newStore: newId(), finishing: allSaved };
    const store = await openStore({ ...about, onReadable });
    trouble.value = null;
    followWindows(store, async (news) => (await following()).followNews(news));
    setTimeout(() => void store.check().catch(() => undefined), CHECK_MS);
    return store;
  } catch (error) {
    const what = error instanceof StoreError ? error.trouble : 'unknown';
    trouble.value = what;
    // Where nothing is kept there is nothing that could be hidden by going on without it.
    if (what === 'refused') {
      const memory = (await import('./store/memory.ts')).createMemoryStore();
      onReadable(memory);
      return memory;
    }
    render(<Bars />, root);
    hasStarted();
    if (what === 'blocked')
      return new Promise((resolve) => setTimeout(resolve, AGAIN_MS)).then(() =>
        openOrSay(onReadable),
      );
    isStuck.value = true;
    return null;
  }
}

async function launch(): Promise<void> {
  const atHand = foldAtHand();
  listenForInstall();
  followTheme();
  await keepBeforeUpgrade(indexedDB).catch(() => undefined);
  let first: Promise<First> | undefined;
  const store = await openOrSay((read) => {
    first = readFirst(read, atHand);
    // Whoever waits for it hears of what goes wrong.
    first.catch(() => undefined);
  });
  if (store === null) return;
  await start(store, first);
  render(<App />, root);
  followAddress((address) => {
    void import('./ui/arriving.ts').then(({ arrive }) => arrive(address));
  });
}

/** The page says by itself that the app has not started, until that is taken away. */
function hasStarted(): void {
  const words = document.getElementById('not-started');
  if (words !== null) words.hidden = true;
}

async function hasFailed(why: unknown): Promise<void> {
  (await afterStart()).sayNotStarted(why);
}

/** Not at the top level: what is fetched later would wait for the end of it, and it for that. */
void launch()
  .catch(hasFailed)
  .then(async () => (await afterStart()).lookAfter(root));
