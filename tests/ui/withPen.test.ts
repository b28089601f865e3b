import { beforeEach, expect, it } from 'vitest';
import type { DurableStore } from '../../src/store/durable.ts';
import type { Listener, StoreState } from '../../src/store/herald.ts';
import { followWindows, withPen } from '../../src/ui/device/windows.ts';

const ELSEWHERE: StoreState = { pen: 'elsewhere', copies: 'unknown', loss: null, trouble: null };

let listen: Listener;
let heard: string[];
let read: () => void;

/** A window that follows: the pen comes when it is asked for, and with it what another wrote. */
beforeEach(() => {
  heard = [];
  const listeners: Listener[] = [];
  listen = (news) => listeners.map((it) => it(news));
  const takePen = async () => {
    heard.push('pen taken');
    listen({ kind: 'changed' });
    listen({ kind: 'state', state: { ...ELSEWHERE, pen: 'here' } });
  };
  const store: unknown = {
    state: () => ELSEWHERE,
    listen: (it: Listener) => void listeners.push(it),
    takePen,
  };
  followWindows(
    store as DurableStore,
    () =>
      new Promise((resolve) => {
        read = () => {
          heard.push('read');
          resolve();
        };
      }),
  );
});

it('what is tapped in a window that follows is done after it has the pen and has read, in order', async () => {
  withPen(() => heard.push('first tap'));
  withPen(() => heard.push('second tap'));
  await expect.poll(() => heard).toEqual(['pen taken']);
  read();
  await expect.poll(() => heard).toEqual(['pen taken', 'read', 'first tap', 'second tap']);
  withPen(() => heard.push('third tap'));
  expect(heard.at(-1)).toBe('third tap');
});
