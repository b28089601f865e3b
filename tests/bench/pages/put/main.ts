/** The floor of saving: the record of one tap put into one object store, strict, awaited to its commit. */
import { openDB } from 'idb';

const database = await openDB('bare', 1, {
  upgrade: (db) => {
    db.createObjectStore('events', { keyPath: ['warp', 'seq'] });
  },
});
const button = document.getElementById('put');
if (button === null) throw new Error('got a page without #put, wanted index.html');

const idOf = (seq: number) => `bench${String(seq).padStart(19, '0')}`;
let seq = 0;

button.addEventListener('click', async () => {
  seq += 1;
  button.dataset.saved = 'false';
  const transaction = database.transaction('events', 'readwrite', { durability: 'strict' });
  void transaction.store.put({
    id: idOf(seq),
    warp: 'bench-warp-0000000000000',
    after: idOf(seq - 1),
    at: new Date().toISOString(),
    kind: 'thrown',
    picks: 1,
    seq,
  });
  await transaction.done;
  button.dataset.saved = 'true';
});
