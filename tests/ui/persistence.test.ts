import { afterEach, expect, it, vi } from 'vitest';
import { askToPersist, persistence } from '../../src/ui/device/persistence.ts';

afterEach(() => vi.unstubAllGlobals());

/** A browser that has promised or not, and answers so when it is asked. */
function browser(has: boolean, answer: () => Promise<boolean>) {
  let times = 0;
  const persist = () => {
    times++;
    return answer();
  };
  vi.stubGlobal('navigator', { storage: { persisted: async () => has, persist } });
  return () => times;
}

it.each([
  ['grants it', () => Promise.resolve(true), 'granted'],
  ['does not', () => Promise.resolve(false), 'refused'],
  ['fails', () => Promise.reject(new Error('no')), 'refused'],
] as const)('a browser asked not to delete what is saved that %s', async (_, answer, said) => {
  const times = browser(false, answer);
  await askToPersist();
  expect(times()).toBe(1);
  expect(persistence.peek()).toBe(said);
});

it('what was granted is not asked for again', async () => {
  const times = browser(true, async () => false);
  await askToPersist();
  expect(times()).toBe(0);
  expect(persistence.peek()).toBe('granted');
});

it('a browser that cannot be asked is said to be one', async () => {
  vi.stubGlobal('navigator', {});
  await askToPersist();
  expect(persistence.peek()).toBe('missing');
});
