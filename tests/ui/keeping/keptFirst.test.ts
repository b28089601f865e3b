/** What changes everything keeps the state before first, and is not done where that cannot be kept. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Contents, NOTHING } from '../../../src/core/backup/contents.ts';
import { holdsOf, writeBackup } from '../../../src/core/backup/file/backupFile.ts';
import { createMemoryStore } from '../../../src/store/memory.ts';
import type { Answer, Ask } from '../../../src/store/snapshots/ask.ts';
import type { Store } from '../../../src/store/store.ts';
import { start } from '../../../src/ui/actions.ts';
import {
  bringIn,
  done,
  incoming,
  lookAtFile,
  notKept,
  replaceAll,
  undoLast,
} from '../../../src/ui/keeping/comingIn.ts';
import { removed } from '../../../src/ui/keeping/removed.ts';
import { putBack, removeSafely } from '../../../src/ui/keeping/removing.ts';
import { warpCards } from '../../../src/ui/state.ts';
import { picksOf, stateOf, timeAt, warpOf } from '../../core/backup/states.ts';

const HERE = stateOf([warpOf('w', picksOf('p', 4)), warpOf('x', [])]);
const THERE = stateOf([warpOf('y', picksOf('q', 2))]);

let store: Store;
/** What lay in the store when a snapshot was asked for. */
let taken: { readonly reason: string; readonly contents: Contents }[];
let isFull: boolean;

beforeEach(async () => {
  taken = [];
  isFull = false;
  vi.stubGlobal('navigator', { language: 'en' });
  vi.stubGlobal(
    'Worker',
    class {
      onmessage: ((event: { data: Answer }) => void) | null = null;
      postMessage(ask: Ask): void {
        void answerTo(ask).then((data) => this.onmessage?.({ data }));
      }
      terminate(): void {}
    },
  );
  store = createMemoryStore();
  await store.addContents(HERE);
  await start(store);
});

afterEach(() => vi.unstubAllGlobals());

async function answerTo(ask: Ask): Promise<Answer> {
  if (ask.kind === 'list') return { ok: true, value: [] };
  const contents = await store.contents();
  if (ask.kind === 'take') {
    if (isFull) return { ok: false, value: 'full' };
    taken.push({ reason: ask.order.reason, contents });
    const note = { ...ask.order, id: String(taken.length - 1), holds: holdsOf(contents), bytes: 1 };
    return { ok: true, value: note };
  }
  const kept = taken[Number(ask.id)]?.contents ?? NOTHING;
  return { ok: true, value: writeBackup({ madeAt: timeAt(0), app: '0.1.0', ...kept }) };
}

async function looking() {
  const text = writeBackup({ madeAt: timeAt(0), app: '0.1.0', ...THERE });
  await lookAtFile(new File([text], 'backup.json'));
  const found = incoming.peek();
  if (found === null) throw new Error('got nothing to bring in');
  return found;
}

const warpsIn = ({ warps }: Contents) => warps.map(({ warp }) => warp.id);
const warpsHere = async () => warpsIn(await store.contents());
const [w] = HERE.warps.map(({ warp }) => warp);
const things = { name: 'w', warps: w === undefined ? [] : [w], drafts: [] };

describe('the state before is kept first', () => {
  it('of bringing in, and undo gives it back', async () => {
    await bringIn(await looking());
    expect(taken.map(({ reason }) => reason)).toEqual(['import']);
    expect(taken.map(({ contents }) => warpsIn(contents))).toEqual([['w', 'x']]);
    expect(await warpsHere()).toEqual(['w', 'x', 'y']);
    await undoLast();
    expect(await warpsHere()).toEqual(['w', 'x']);
    // The undoing too.
    expect(taken.map(({ contents }) => warpsIn(contents))).toEqual([
      ['w', 'x'],
      ['w', 'x', 'y'],
    ]);
  });

  it('of replacing everything, and undo gives it back', async () => {
    await replaceAll(await looking());
    expect(taken.map(({ reason }) => reason)).toEqual(['replace']);
    expect(await warpsHere()).toEqual(['y']);
    await undoLast();
    expect(await warpsHere()).toEqual(['w', 'x']);
  });

  it('of taking a warp away, and one tap puts it back', async () => {
    expect(await removeSafely(things)).toBe(true);
    expect(taken.map(({ contents }) => warpsIn(contents))).toEqual([['w', 'x']]);
    expect(await warpsHere()).toEqual(['x']);
    const last = removed.peek();
    if (last !== null) await putBack(last);
    expect(await warpsHere()).toEqual(['w', 'x']);
    expect(await store.eventsOf('w')).toEqual(HERE.warps[0]?.log);
  });
});

it('whoever went back to Warps meanwhile finds there what came in', async () => {
  await bringIn(await looking());
  expect(warpCards.value?.map(({ warp }) => warp.id).toSorted()).toEqual(['w', 'x', 'y']);
});

it('what was woven on while a backup was looked at stays', async () => {
  const text = writeBackup({ madeAt: timeAt(0), app: '0.1.0', ...HERE });
  await lookAtFile(new File([text], 'backup.json'));
  const found = incoming.peek();
  const log = picksOf('later', 3, HERE.warps[0]?.log, 'w');
  await store.appendAll(log);
  if (found !== null) await bringIn(found);
  expect(await warpsHere()).toEqual(['w', 'x']);
  expect((await store.warps())[0]?.wovenAt).toBe(log.at(-1)?.at);
});

describe('where it cannot be kept', () => {
  beforeEach(() => {
    isFull = true;
  });

  it('nothing is brought in, and that is said; without it, only when asked for', async () => {
    const found = await looking();
    await bringIn(found);
    expect([await warpsHere(), notKept.value, done.value]).toEqual([['w', 'x'], true, null]);
    await bringIn(found, 'snapshot');
    expect(await warpsHere()).toEqual(['w', 'x', 'y']);
  });

  it('nothing is replaced, and that is said', async () => {
    await replaceAll(await looking());
    expect([await warpsHere(), notKept.value, done.value]).toEqual([['w', 'x'], true, null]);
  });

  it('nothing is taken away', async () => {
    expect(await removeSafely(things)).toBe(false);
    expect(await warpsHere()).toEqual(['w', 'x']);
  });
});
