/** The floor of saving: the record of one tap put into one object store, strict, awaited to its commit. */
import { type IDBPDatabase, openDB } from 'idb';
import { openIndexedDbStore } from '../../../../src/store/indexedDb.ts';
import { largePlan } from '../../core/layPlan.ts';
import { tapsOf, wovenUntil } from '../../samples.ts';

declare global {
  interface Window {
    /** Both without tap or screen, in turns: milliseconds from the call to the commit. */
    benchSaving: (times: number) => Promise<{ readonly append: number[]; readonly put: number[] }>;
  }
}

const woven = wovenUntil(largePlan(), () => true);
const taps = tapsOf(woven);
const database = await openDB('bare', 1, {
  upgrade: (db) => {
    db.createObjectStore('events', { keyPath: ['warp', 'seq'] });
  },
});
const button = document.getElementById('put');
if (button === null) throw new Error('got a page without #put, wanted index.html');

let seq = 0;
button.addEventListener('click', async () => {
  button.dataset.saved = 'false';
  await putNext(database);
  button.dataset.saved = 'true';
});

async function putNext(db: IDBPDatabase): Promise<void> {
  const transaction = db.transaction('events', 'readwrite', { durability: 'strict' });
  void transaction.store.put({ ...taps(seq), seq });
  seq += 1;
  await transaction.done;
}

window.benchSaving = async (times) => {
  const store = await openIndexedDbStore({ name: 'bench-append' });
  await store.addWarp(woven.warp, woven.plan);
  const taken = { append: [] as number[], put: [] as number[] };
  for (let i = 0; i < times; i++) {
    taken.append.push(await timeOf(() => store.append(taps(i))));
    taken.put.push(await timeOf(() => putNext(database)));
  }
  return taken;
};

async function timeOf(work: () => Promise<void>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}
