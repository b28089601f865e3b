import { afterAll, expect, it } from 'vitest';
import { firstVisit } from './bench.ts';
import { kill9, makeTempDir, openChromium, openVisitor, removeDir, serveDist } from './harness.ts';

const profileDir = makeTempDir('kill');

afterAll(() => removeDir(profileDir));

it('what was committed strictly before a kill is there in the next browser on that profile', async () => {
  const server = await serveDist();
  const first = await openChromium({ profileDir });
  await first.page.goto(server.url);
  await first.page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('kept', 1);
        opening.onupgradeneeded = () => opening.result.createObjectStore('words');
        opening.onsuccess = () => {
          const tx = opening.result.transaction('words', 'readwrite', { durability: 'strict' });
          tx.objectStore('words').put('fell', 0);
          tx.oncomplete = () => resolve();
          tx.onabort = () => reject(tx.error);
        };
        opening.onerror = () => reject(opening.error);
      }),
  );
  await kill9(first);
  await expect(first.page.evaluate('1')).rejects.toThrow();

  const second = await openChromium({ profileDir });
  await second.page.goto(server.url);
  const word = await second.page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const opening = indexedDB.open('kept', 1);
        opening.onsuccess = () => {
          const reading = opening.result.transaction('words').objectStore('words').get(0);
          reading.onsuccess = () => resolve(reading.result);
        };
        opening.onerror = () => reject(opening.error);
      }),
  );
  expect(word).toBe('fell');
  await second.close();
  await server.stop();
});

/** In the page: leaves something behind wherever something can be left, and keeps a lock. */
async function leaveTraces(): Promise<void> {
  localStorage.setItem('kept', 'fell');
  await new Promise<void>((resolve, reject) => {
    const opening = indexedDB.open('kept', 1);
    opening.onsuccess = () => resolve(opening.result.close());
    opening.onerror = () => reject(opening.error);
  });
  const files = await navigator.storage.getDirectory();
  const writing = await (await files.getFileHandle('kept', { create: true })).createWritable();
  await writing.write('fell');
  await writing.close();
  await new Promise<void>((resolve) => {
    void navigator.locks.request('kept', () => new Promise(() => resolve()));
  });
}

/** In the page: whether each of them is there. */
async function traces(): Promise<readonly boolean[]> {
  const databases = (await indexedDB.databases()).map(({ name }) => name);
  const files = await navigator.storage.getDirectory();
  const file = await files.getFileHandle('kept').catch(() => null);
  const { held = [] } = await navigator.locks.query();
  return [
    localStorage.getItem('kept') === 'fell',
    databases.includes('kept'),
    (await (await file?.getFile())?.text()) === 'fell',
    held.some(({ name }) => name === 'kept'),
    (await navigator.serviceWorker.getRegistration()) !== undefined,
  ];
}

it('a visitor has database, private files, locks and worker as on a disk, and shares none with the next', async () => {
  const server = await serveDist();
  const [one, other] = [await openVisitor(), await openVisitor()];
  await firstVisit(one.page, server.url);
  await one.page.evaluate(leaveTraces);
  expect(await one.page.evaluate(traces)).toEqual([true, true, true, true, true]);
  await other.page.goto(`${server.url}robots.txt`);
  expect(await other.page.evaluate(traces)).toEqual([false, false, false, false, false]);
  await server.stop();
  await one.page.reload();
  await one.page.getByRole('heading', { name: 'Fellmark', exact: true }).waitFor();
  // A lock lets go with its page; the rest stays.
  expect(await one.page.evaluate(traces)).toEqual([true, true, true, false, true]);
  await one.close();
  await other.close();
});

it('a server that was stopped answers nothing, and answers on the same port when started again', async () => {
  const server = await serveDist();
  expect((await fetch(server.url)).headers.get('content-type')).toBe('text/html; charset=utf-8');
  await server.stop();
  await expect(fetch(server.url)).rejects.toThrow();
  await server.start();
  expect((await fetch(server.url)).status).toBe(200);
  await server.stop();
});

it('a server gives out nothing from outside its folder', async () => {
  const server = await serveDist();
  for (const path of ['..%2fpackage.json', '%2e%2e/package.json', 'no-such-file', '%00', '%zz']) {
    expect((await fetch(server.url + path)).status, path).toBe(404);
  }
  await server.stop();
});

it('a server packs text for whoever takes it packed, and sends the same to everyone', async () => {
  const server = await serveDist();
  for (const name of ['', 'sw.js', 'icon.svg', 'icon-192.png']) {
    const packed = await fetch(server.url + name, { headers: { 'accept-encoding': 'gzip' } });
    const plain = await fetch(server.url + name, { headers: { 'accept-encoding': 'identity' } });
    expect(packed.headers.get('content-encoding'), name).toBe(name.endsWith('png') ? null : 'gzip');
    expect(plain.headers.get('content-encoding'), name).toBeNull();
    // What comes packed is unpacked by the one who fetches it.
    expect(await packed.arrayBuffer(), name).toEqual(await plain.arrayBuffer());
  }
  await server.stop();
});
