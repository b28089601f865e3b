/** Composition root: opens the store, replays the log, renders. */
import { render } from 'preact';
import { openIndexedDbStore } from './store/indexedDb.ts';
import { createMemoryStore } from './store/memory.ts';
import { type Store, StoreError } from './store/store.ts';
import { start } from './ui/actions.ts';
import { App } from './ui/app.tsx';
import { followAddress } from './ui/device/address.ts';
import { followTheme } from './ui/device/theme.ts';
import { registerWorker } from './ui/device/updates.ts';
import { watchVisibility } from './ui/device/wakeLock.ts';
import { trouble } from './ui/state.ts';
import './ui/style/base.css';
import './ui/style/controls.css';

async function openStore(): Promise<Store> {
  try {
    return await openIndexedDbStore();
  } catch (error) {
    trouble.value = error instanceof StoreError ? error.trouble : 'refused';
    return createMemoryStore();
  }
}

const root = document.getElementById('app');
if (root === null) throw new Error('got a page without #app, wanted index.html');
followTheme();
watchVisibility();
await start(await openStore());
render(<App />, root);
followAddress((address) => {
  void import('./ui/arriving.ts').then(({ arrive }) => arrive(address));
});
registerWorker();
