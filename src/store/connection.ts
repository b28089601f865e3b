/**
 * The handle to the database. Tablets close it behind the app's back, and a dead handle stays dead:
 * so it is dropped at the first sign and opened anew, for at most three tries.
 */
import { wrap } from 'idb';
import { DATABASE_VERSION, type Database, ROOMS, upgrade } from './schema.ts';
import { StoreError } from './store.ts';
import { closedByUs, isLostConnection, storeErrorFrom } from './trouble.ts';

/** Milliseconds before the second and the third try; their number fixes that of the tries. */
const PAUSES = [0, 100] as const;

/** Milliseconds another window has to let go of an older database before that is said. */
const BLOCKED_MS = 1500;

/** Uses the handle. `attempt` counts from 0: past it, an earlier try may have been committed. */
export type Use<T> = (database: Database, attempt: number) => Promise<T>;

export interface Connection {
  /** Rejects with `StoreError` only. */
  readonly use: <T>(work: Use<T>) => Promise<T>;
  readonly close: () => void;
}

/** A connection that opens at its first use. */
export function createConnection(
  factory: IDBFactory,
  name: string,
  blockedMs = BLOCKED_MS,
): Connection {
  const handle = createHandle((want) => openDatabase({ factory, name, want, blockedMs }));
  const use = async <T>(work: Use<T>): Promise<T> => {
    for (let attempt = 0; ; attempt += 1) {
      const current = handle.get();
      try {
        return await work(await current, attempt);
      } catch (error) {
        if (!isLostConnection(error)) throw storeErrorFrom(error);
        handle.drop(current);
        const pause = PAUSES[attempt];
        if (pause === undefined) throw storeErrorFrom(error);
        await waitFor(pause);
      }
    }
  };
  return { use, close: handle.close };
}

interface Handle {
  readonly get: () => Promise<Database>;
  readonly drop: (lost: Promise<Database>) => void;
  readonly close: () => void;
}

function createHandle(open: (want: Want) => Promise<Database>): Handle {
  let opening: Promise<Database> | null = null;
  let want: Want = 'any';
  let closed = false;

  const drop = (lost: Promise<Database>): void => {
    if (opening === lost) opening = null;
    // Running transactions still finish; a handle that never came has nothing to close.
    lost.then((database) => database.close()).catch(() => undefined);
  };
  const openAnew = (): Promise<Database> => {
    const fresh = open(want);
    const dropFresh = () => drop(fresh);
    fresh.then((database) => {
      want = 'existing';
      database.addEventListener('close', dropFresh);
      // Another window wants to upgrade or delete: make room; the next use opens anew.
      database.addEventListener('versionchange', dropFresh);
    }, dropFresh);
    return fresh;
  };
  const get = (): Promise<Database> => {
    if (closed) return Promise.reject(closedByUs());
    opening ??= openAnew();
    return opening;
  };
  const close = (): void => {
    closed = true;
    if (opening !== null) drop(opening);
  };
  return { get, drop, close };
}

/**
 * Whether an empty database may be made. `existing` is for one this page has already had open: if
 * it is gone now, an empty one in its place would look like a warp never woven on.
 */
type Want = 'any' | 'existing';

interface Opening {
  readonly factory: IDBFactory;
  readonly name: string;
  readonly want: Want;
  readonly blockedMs: number;
}

async function openDatabase({ factory, name, want, blockedMs }: Opening): Promise<Database> {
  const request = requestOpen(factory, name);
  let refusal: StoreError | null = null;
  request.addEventListener('upgradeneeded', (event) => {
    try {
      if (want === 'existing' && event.oldVersion === 0) throw databaseGone(name);
      upgrade(wrap(request.result) as unknown as Database, event.oldVersion);
    } catch (error) {
      refusal = storeErrorFrom(error);
      // Without this, a failed upgrade would still leave the new version number behind.
      request.transaction?.abort();
    }
  });
  try {
    return whole((await unlessBlocked(request, name, blockedMs)) as unknown as Database);
  } catch (error) {
    throw refusal ?? refusedIfForbidden(error);
  }
}

/** The database, or word that another window holds it. If that lets go later, the next use gets it. */
function unlessBlocked(
  request: IDBOpenDBRequest,
  name: string,
  blockedMs: number,
): Promise<unknown> {
  return new Promise((resolve, reject) => {
    const giveUp = () => {
      request.addEventListener('success', () => request.result.close());
      reject(new StoreError('blocked', `got ${name} held by an older window, wanted it free`));
    };
    request.addEventListener('blocked', () => setTimeout(giveUp, blockedMs));
    wrap(request).then(resolve, reject);
  });
}

/** What a broken browser answers with another version is no better than no answer. */
function whole(database: Database): Database {
  const isWhole =
    database.version === DATABASE_VERSION &&
    ROOMS.every((room) => database.objectStoreNames.contains(room));
  if (isWhole) return database;
  database.close();
  throw new DOMException(`got version ${database.version} of the database`, 'AbortError');
}

function requestOpen(factory: IDBFactory, name: string): IDBOpenDBRequest {
  try {
    return factory.open(name, DATABASE_VERSION);
  } catch (error) {
    throw refusedIfForbidden(error);
  }
}

/** Some private windows refuse to open by a wrong state, which elsewhere means a dead handle. */
function refusedIfForbidden(error: unknown): unknown {
  const isWrongState = error instanceof Error && error.name === 'InvalidStateError';
  return isWrongState ? new StoreError('refused', error.message, error) : error;
}

function databaseGone(name: string): StoreError {
  return new StoreError('lost-connection', `got no database ${name}, wanted the one open before`);
}

function waitFor(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}
