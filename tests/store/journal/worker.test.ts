// The worker of the journal, on a stand-in for the private file system of a browser.
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Answer, Request } from '../../../src/store/journal/journal.ts';
import { type FakeFiles, fakeFiles } from '../files.ts';

let files: FakeFiles;
/** How often a file is still held by the page before. */
let held: number;
let error: DOMException;
let closed: string[];
let answers: Answer[];
let listen: (event: { data: Request }) => void;

beforeEach(async () => {
  files = fakeFiles();
  held = 0;
  error = new DOMException('held', 'NoModificationAllowedError');
  closed = [];
  answers = [];
  const folder = {
    getFileHandle: async (name: string) => ({
      createSyncAccessHandle: async () => {
        if (name === 'journal-1.txt' && held > 0) {
          held -= 1;
          throw error;
        }
        const file = files.files[name === 'journal-0.txt' ? 0 : 1];
        return { ...file, close: () => void closed.push(name) };
      },
    }),
  };
  const getDirectory = async () => ({ getDirectoryHandle: async () => folder });
  vi.stubGlobal('navigator', { storage: { getDirectory } });
  vi.stubGlobal('addEventListener', (_: string, to: typeof listen) => {
    listen = to;
  });
  vi.stubGlobal('postMessage', (answer: Answer) => void answers.push(answer));
  vi.resetModules();
  await import('../../../src/store/journal/worker.ts');
});

afterEach(() => vi.unstubAllGlobals());

async function ask(name: Request['name'], ...args: readonly unknown[]): Promise<Answer> {
  const id = answers.length + 1;
  listen({ data: { id, name, args } as unknown as Request });
  await expect.poll(() => answers.length, { timeout: 10_000 }).toBe(id);
  const answer = answers.at(-1);
  if (answer === undefined) throw new Error('got no answer');
  return answer;
}

test('answers each request under its number, and writes what it is given', async () => {
  expect(await ask('open', null)).toEqual({ id: 1, value: { kind: 'none' } });
  await ask('rewrite', 'store', { n: 0, by: 'w' }, []);
  const entry = { n: 1, by: 'w', after: 0, op: { kind: 'setting', name: 'hand', value: 'left' } };
  await ask('append', entry);
  expect(await ask('isSound', null)).toMatchObject({ value: true });
  expect(Buffer.from(files.files[0].bytes()).toString()).toContain('"hand"');
  await ask('close');
  expect(closed.toSorted()).toEqual(['journal-0.txt', 'journal-1.txt']);
});

test('waits for a page that does not let go of a file at once', async () => {
  held = 3;
  expect(await ask('open', null)).toMatchObject({ value: { kind: 'none' } });
});

test('gives up on one that never does, and lets go of the other file', async () => {
  held = Number.POSITIVE_INFINITY;
  expect((await ask('open', null)).error).toContain('held');
  expect(closed).toEqual(['journal-0.txt']);
});

test('does not wait where waiting cannot help', async () => {
  held = 1;
  error = new DOMException('no', 'NotFoundError');
  expect((await ask('open', null)).error).toContain('no');
  expect(held).toBe(0);
  expect(await ask('append', {})).toMatchObject({ error: expect.stringContaining('closed') });
});
