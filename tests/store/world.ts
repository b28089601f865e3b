/**
 * A browser with all the places the store keeps things in, where windows are opened and closed, and
 * where any of the places can be lost or changed between.
 */
import { IDBFactory as FakeFactory } from 'fake-indexeddb';
import { createBus } from '../../src/store/bus.ts';
import { openDatabaseCopy, type Readers } from '../../src/store/database.ts';
import { type DurableStore, openDurable } from '../../src/store/durable.ts';
import {
  type Answer,
  type Journal,
  journalOver,
  type Port,
} from '../../src/store/journal/journal.ts';
import { createKeeper, type OpenFiles } from '../../src/store/journal/keeper.ts';
import { DATABASE_NAME, DATABASE_VERSION, ROOMS, upgrade } from '../../src/store/schema.ts';
import { RECORD_KINDS, type Store } from '../../src/store/store.ts';
import { createWitness } from '../../src/store/witness.ts';
import { freshBrowser } from './browser.ts';
import { type FakeFiles, fakeFiles } from './files.ts';
import { createLocks } from './locks.ts';
import { getRaw, openRaw, putRaw } from './raw.ts';

export interface World {
  indexedDB: IDBFactory;
  /** Null in a browser without a private file system. */
  files: FakeFiles | null;
  readonly storage: Map<string, string>;
  readonly locks: ReturnType<typeof createLocks>;
  readonly channels: Set<FakeChannel>;
  windows: number;
}

export function freshWorld(indexedDB: IDBFactory = freshBrowser().indexedDB): World {
  return {
    indexedDB,
    files: fakeFiles(),
    storage: new Map(),
    locks: createLocks(),
    channels: new Set(),
    windows: 0,
  };
}

export interface WindowOptions {
  /** Stands in for the window's own journal. */
  readonly journal?: Journal | null;
  readonly finishing?: () => Promise<void>;
  readonly onReadable?: (read: Readers) => void;
  /** Milliseconds an older window may hold the database. */
  readonly blockedMs?: number;
}

/** Opens the app's store in a new window. */
export async function openWindow(world: World, options: WindowOptions = {}): Promise<DurableStore> {
  world.windows += 1;
  const by = `window-${world.windows}`;
  const own = world.files === null ? null : journalOn(world.files.open);
  return openDurable({
    database: await openDatabaseCopy(world.indexedDB, DATABASE_NAME, options.blockedMs),
    journal: options.journal === undefined ? own : options.journal,
    witness: createWitness(() => storageOver(world.storage)),
    windows: { locks: world.locks.forWindow(), bus: createBus(channelIn(world)) },
    by,
    newStore: `store of ${by}`,
    finishing: options.finishing ?? (async () => undefined),
    ...(options.onReadable === undefined ? {} : { onReadable: options.onReadable }),
  });
}

/** Closes a window and waits until it holds nothing any more. */
export async function closeWindow(world: World, store: DurableStore): Promise<void> {
  store.close();
  await until(() => world.files?.isOpen() !== true && !world.locks.isHeld());
}

/** The pen is here and the copies have been compared. */
export function settled(store: DurableStore): Promise<void> {
  return until(() => store.state().pen === 'here');
}

/** Asks at every turn of the event loop; gives up after ten seconds. */
export async function until(isTrue: () => boolean): Promise<void> {
  const end = Date.now() + 10_000;
  while (!isTrue()) {
    if (Date.now() > end) throw new Error(`until: waited ten seconds for ${isTrue}`);
    await new Promise((resolve) => setTimeout(resolve, 1));
  }
}

/** A journal whose worker is this very thread. */
export function journalOn(open: OpenFiles): Journal {
  const answer = createKeeper(open, DATABASE_VERSION);
  const port: Port = {
    onmessage: null,
    onerror: null,
    postMessage: (request) => {
      // As between threads: a copy there and a copy back.
      void answer(structuredClone(request)).then((it) => {
        const data: Answer = structuredClone(it);
        port.onmessage?.({ data } as MessageEvent<Answer>);
      });
    },
  };
  return journalOver(port);
}

interface FakeChannel {
  onmessage: ((event: MessageEvent) => void) | null;
}

function channelIn(world: World): BroadcastChannel {
  const own: FakeChannel & Pick<BroadcastChannel, 'postMessage' | 'close'> = {
    onmessage: null,
    postMessage: (message: unknown) => {
      for (const other of world.channels) {
        if (other === own) continue;
        const data: unknown = structuredClone(message);
        setImmediate(() => other.onmessage?.({ data } as MessageEvent));
      }
    },
    close: () => world.channels.delete(own),
  };
  world.channels.add(own);
  return own as BroadcastChannel;
}

function storageOver(map: Map<string, string>): Storage {
  return {
    getItem: (key: string) => map.get(key) ?? null,
    setItem: (key: string, value: string) => void map.set(key, value),
    removeItem: (key: string) => void map.delete(key),
  } as Storage;
}

export type Snapshot = ReadonlyMap<string, readonly object[]>;

export async function snapshotOf(indexedDB: IDBFactory): Promise<Snapshot> {
  const database = await openRaw(indexedDB);
  const rooms = [...database.objectStoreNames];
  const records = await Promise.all(
    rooms.map(async (room) => [room, (await getRaw(database, room)) as object[]] as const),
  );
  database.close();
  return new Map(records);
}

/** A database as it was, in a browser that has forgotten everything since. */
export async function restored(snapshot: Snapshot): Promise<IDBFactory> {
  const indexedDB = new FakeFactory();
  const database = await openRaw(indexedDB, DATABASE_VERSION, (raw) =>
    upgrade(raw as unknown as Parameters<typeof upgrade>[0], 0),
  );
  for (const room of ROOMS) await putRaw(database, room, snapshot.get(room) ?? []);
  database.close();
  return indexedDB;
}

export const emptied = (): IDBFactory => new FakeFactory();

/** All that can be read from a store. */
export async function everythingIn(
  store: Store,
  warps: readonly string[],
  settings: readonly string[],
): Promise<unknown> {
  const each = warps.map(async (id) => [await store.revisionsOf(id), await store.eventsOf(id)]);
  return {
    warps: await store.warps(),
    each: await Promise.all(each),
    settings: await Promise.all(settings.map((name) => store.setting(name))),
    records: await Promise.all(RECORD_KINDS.map((kind) => store.records(kind))),
  };
}
