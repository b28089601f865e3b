/** Two windows at the very moments when the lock goes from one to the other. */
import { expect, test } from 'vitest';
import type { Bus, Message } from '../../src/store/bus.ts';
import { createPen, type PenEvents } from '../../src/store/pen.ts';
import { createLocks } from './locks.ts';

/** A bus on which `say` is what another window posts. */
function oneBus(): {
  readonly bus: Bus;
  readonly say: (message: Message) => void;
  posted: Message[];
} {
  const listeners: ((message: Message) => void)[] = [];
  const posted: Message[] = [];
  const bus: Bus = {
    post: (message) => void posted.push(message),
    listen: (listener) => void listeners.push(listener),
    next: async () => false,
    close: () => undefined,
  };
  return { bus, posted, say: (message) => listeners.map((it) => it(message)) };
}

const turn = () => new Promise((resolve) => setImmediate(resolve));
const turns = async (count: number) => {
  for (let n = 0; n < count; n += 1) await turn();
};
const forEver = () => new Promise<void>(() => undefined);

function told(change: Partial<PenEvents> = {}): PenEvents & { readonly heard: string[] } {
  const heard: string[] = [];
  return {
    heard,
    onGained: () => void heard.push('gained'),
    onAsked: async () => void heard.push('asked'),
    onLost: () => void heard.push('lost'),
    ...change,
  };
}

test('a pen taken away before it was known to be here was never here', async () => {
  const locks = createLocks();
  const events = told();
  const pen = createPen(locks.forWindow(), oneBus().bus, 'a', events);
  await turn();
  void locks.forWindow().request('fellmark-pen', { steal: true }, forEver);
  await turns(5);
  expect(pen.isHere()).toBe(false);
  expect(events.heard).toEqual([]);
});

test('a pen taken away while a window finishes is not given a second time', async () => {
  const locks = createLocks();
  let finish = (): void => undefined;
  const finishing = new Promise<void>((resolve) => {
    finish = resolve;
  });
  const events = told({ onAsked: () => finishing });
  const { bus, posted, say } = oneBus();
  const pen = createPen(locks.forWindow(), bus, 'a', events);
  await turns(5);
  expect(pen.isHere()).toBe(true);
  say({ kind: 'asks', by: 'b' });
  void locks
    .forWindow()
    .request('fellmark-pen', { steal: true }, forEver)
    .catch(() => undefined);
  await turns(5);
  finish();
  await turns(5);
  expect(posted).toEqual([]);
  expect(events.heard).toEqual(['gained', 'lost']);
});
