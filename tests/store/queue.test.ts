import { expect, test } from 'vitest';
import { createQueue } from '../../src/store/queue.ts';

test('a task starts only when the one before has settled, in the order asked for', async () => {
  const queue = createQueue();
  const seen: string[] = [];
  const task = (name: string, turns: number) => async () => {
    seen.push(`${name} starts`);
    for (let turn = 0; turn < turns; turn += 1) await Promise.resolve();
    seen.push(`${name} ends`);
    return name;
  };
  const results = await Promise.all([queue(task('long', 20)), queue(task('short', 0))]);
  expect(results).toEqual(['long', 'short']);
  expect(seen).toEqual(['long starts', 'long ends', 'short starts', 'short ends']);
});

test('a failure goes to its own caller and stops nobody', async () => {
  const queue = createQueue();
  const failing = queue(() => Promise.reject(new Error('full')));
  const next = queue(async () => 'done');
  await expect(failing).rejects.toThrow('full');
  expect(await next).toBe('done');
});
