import { afterAll, expect, it } from 'vitest';
import { kill9, makeTempDir, openChromium, removeDir, serveDist } from './harness.ts';

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
