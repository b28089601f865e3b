import { beforeEach, describe, expect, it } from 'vitest';
import type { LogEvent } from '../../src/core/bench/events.ts';
import { StoreError } from '../../src/store/store.ts';
import { guarded } from '../../src/ui/actions.ts';
import { createSaver } from '../../src/ui/saver.ts';
import { savingSlowly, trouble, unsaved } from '../../src/ui/state.ts';
import { tap, taps } from '../store/samples.ts';

beforeEach(() => {
  savingSlowly.value = false;
  trouble.value = null;
});

/** A disk that answers what it is told to, one write after the other, and remembers what it kept. */
function disk(answers: readonly boolean[]) {
  const kept: LogEvent[] = [];
  const asked: (readonly LogEvent[])[] = [];
  const append = async (events: readonly LogEvent[]): Promise<boolean> => {
    const isKept = answers[asked.length] ?? true;
    asked.push(events);
    if (isKept) kept.push(...events);
    return isKept;
  };
  return { append, kept, asked };
}

describe('taps on their way to the disk', () => {
  it('what was not kept is tried again with the next tap, before it: the log has no holes', async () => {
    const { append, kept, asked } = disk([true, false, false]);
    const saver = createSaver(append);
    for (const event of taps('a', 4)) {
      saver.save(event);
      await saver.settled();
    }
    expect(kept).toEqual(taps('a', 4));
    expect(asked.map((it) => it.map(({ id }) => id))).toEqual([
      ['a-0'],
      ['a-1'],
      ['a-1', 'a-2'],
      ['a-1', 'a-2', 'a-3'],
    ]);
  });

  it('say how many are not saved yet, and which', async () => {
    const { append } = disk([false]);
    const saver = createSaver(append);
    saver.save(tap('a', 0));
    expect(unsaved.value).toBe(1);
    await saver.settled();
    saver.save(tap('b', 0));
    expect([unsaved.value, saver.unsavedOf('a')]).toEqual([2, [tap('a', 0)]]);
    await saver.settled();
    expect([unsaved.value, saver.unsavedOf('a')]).toEqual([0, []]);
  });

  it('of a hundred at once none is left out, and none is asked for twice', async () => {
    const { append, kept } = disk([]);
    const saver = createSaver(append);
    for (const event of taps('a', 100)) saver.save(event);
    await saver.settled();
    expect(kept).toEqual(taps('a', 100));
  });

  it('one that waits too long for the disk is told of, until it is saved', async () => {
    let answer = (): void => undefined;
    const saver = createSaver(
      () =>
        new Promise((resolve) => {
          answer = () => resolve(true);
        }),
      1,
    );
    saver.save(tap('a', 0));
    await expect.poll(() => savingSlowly.value).toBe(true);
    answer();
    await saver.settled();
    expect(savingSlowly.value).toBe(false);
  });

  it('of a warp that was taken away are not wanted any more', async () => {
    const { append, kept } = disk([false]);
    const saver = createSaver(append);
    saver.save(tap('a', 0));
    await saver.settled();
    saver.forget('a');
    saver.save(tap('b', 0));
    await saver.settled();
    expect(kept).toEqual([tap('b', 0)]);
  });
});

it.each([
  ['a full disk', new StoreError('quota', 'full'), 'quota'],
  ['a newer app', new StoreError('newer-data', 'newer'), 'newer-data'],
  ['anything else', new Error('no'), 'unknown'],
])('%s is what the bar says, until a write is kept again', async (_what, error, said) => {
  expect(await guarded(Promise.reject(error))).toBe(false);
  expect(trouble.value).toBe(said);
  expect(await guarded(Promise.resolve())).toBe(true);
  expect(trouble.value).toBeNull();
});
