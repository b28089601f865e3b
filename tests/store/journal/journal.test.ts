// The journal as the window sees it, and the one that keeps it, without a thread between them.
import { expect, test } from 'vitest';
import {
  type Answer,
  journalOver,
  type Port,
  type Request,
} from '../../../src/store/journal/journal.ts';
import { createKeeper } from '../../../src/store/journal/keeper.ts';
import type { Entry } from '../../../src/store/op.ts';
import { fakeFiles } from '../files.ts';
import { until } from '../world.ts';

test('a worker that does not load fails every call, those waiting and those to come', async () => {
  const asked: Request[] = [];
  const port: Port = {
    onmessage: null,
    onerror: null,
    postMessage: (request) => void asked.push(request),
  };
  const journal = journalOver(port);
  const waiting = [journal.open(null), journal.isSound(null)];
  port.onerror?.({ message: 'no such file' } as ErrorEvent);
  for (const it of waiting) await expect(it).rejects.toThrow('does not work: no such file');
  await expect(journal.close()).rejects.toThrow('does not work: no such file');
  expect(asked).toHaveLength(2);
});

test('an answer nobody waits for is passed over', () => {
  const port: Port = { onmessage: null, onerror: null, postMessage: () => undefined };
  journalOver(port);
  expect(() => port.onmessage?.({ data: { id: 7 } } as MessageEvent<Answer>)).not.toThrow();
});

/** A journal in which one note was written over so often that it is worth writing anew. */
async function grown(quietMs: number) {
  const files = fakeFiles();
  const answer = createKeeper(files.open, 3, quietMs);
  await answer({ id: 1, name: 'open', args: [null] });
  await answer({ id: 2, name: 'rewrite', args: ['s', { n: 0, by: 'w' }, []] });
  const value = 'x'.repeat(100_000);
  for (let n = 1; n <= 12; n += 1) {
    const op: Entry['op'] = { kind: 'setting', name: 'note', value };
    await answer({ id: 2 + n, name: 'append', args: [{ n, by: 'w', after: n - 1, op }] });
  }
  return { files, answer };
}

test('in a quiet moment a journal is written anew, as short as it can be', async () => {
  const { files } = await grown(1);
  await until(() => files.files.every((file) => file.getSize() < 200_000));
  expect(files.files.some((file) => file.getSize() > 100_000)).toBe(true);
});

test('a journal that is closed by then is left as it is', async () => {
  const { files, answer } = await grown(30);
  await answer({ id: 99, name: 'close', args: [] });
  await new Promise((resolve) => setTimeout(resolve, 60));
  expect(files.files[0].getSize()).toBeGreaterThan(1_000_000);
});
