/**
 * A database that goes wrong at its nth operation: every opening, every transaction, every request
 * and every commit is one.
 */
import {
  IDBFactory as FakeFactory,
  forceCloseDatabase,
  IDBVersionChangeEvent,
} from 'fake-indexeddb';
import { DATABASE_NAME } from '../../src/store/schema.ts';
import { openRaw } from './raw.ts';

export const FAULTS = [
  'drops the handle',
  'says quota',
  'delays',
  'closes',
  'answers an old version',
  'blocks an upgrade',
] as const;
export type FaultName = (typeof FAULTS)[number];

export interface FaultyBrowser {
  readonly indexedDB: IDBFactory;
  /** Operations so far. */
  readonly count: () => number;
  /** Whether it has gone wrong yet. */
  readonly hasGoneWrong: () => boolean;
  /** From now on nothing goes wrong any more. */
  readonly mend: () => void;
}

export interface FaultOptions {
  readonly fault: FaultName;
  /** At which operation from 1 on. */
  readonly nth: number;
  /** How often in a row: some faults are over at the second try, some only after the last. */
  readonly times: number;
  /** How long a delay or a blocked opening takes. */
  readonly ms: number;
}

type Transaction = IDBTransaction & {
  _start: () => void;
  readonly _state: string;
  readonly _requests: readonly unknown[];
  readonly _abort: (name: string | null) => void;
};

type Method = (...args: readonly unknown[]) => unknown;

export function faultyBrowser({ fault, nth, times, ms }: FaultOptions): FaultyBrowser {
  const factory = new FakeFactory();
  const open = factory.open.bind(factory);
  let done = 0;
  /** How often it has yet to go wrong; null before the first time. */
  let left: number | null = null;

  const strikes = (): boolean => {
    done += 1;
    if (left === null && done >= nth) left = times;
    if (left === null || left === 0) return false;
    left -= 1;
    return true;
  };
  const strikeIn = (transaction: Transaction, handle: IDBDatabase): void => {
    if (fault === 'delays') {
      delayed(transaction, ms);
      return;
    }
    if (fault === 'says quota') {
      setImmediate(() => abort(transaction, 'QuotaExceededError'));
      return;
    }
    if (fault === 'closes') (forceCloseDatabase as unknown as (it: IDBDatabase) => void)(handle);
    else handle.close();
    setImmediate(() => abort(transaction, null));
  };
  const watch = (handle: IDBDatabase): void => {
    const begin = handle.transaction.bind(handle);
    handle.transaction = (rooms, mode, options) => {
      const transaction = begin(rooms, mode, options) as Transaction;
      if (strikes()) strikeIn(transaction, handle);
      watchRequests(transaction, () => strikes() && strikeIn(transaction, handle));
      atCommit(transaction, () => {
        if (!strikes()) return false;
        strikeIn(transaction, handle);
        if (fault === 'delays') transaction._start();
        return true;
      });
      return transaction;
    };
  };
  factory.open = (name, version) => {
    const isStruck = strikes();
    if (isStruck && fault === 'says quota') {
      throw new DOMException('no room', 'QuotaExceededError');
    }
    if (isStruck && fault === 'answers an old version') return oldVersion();
    const request = open(name, version);
    if (isStruck && fault === 'blocks an upgrade') blocked(request, ms);
    request.addEventListener('success', () => watch(request.result));
    return request;
  };
  return {
    indexedDB: factory,
    count: () => done,
    hasGoneWrong: () => left !== null,
    mend: () => {
      left = 0;
    },
  };
}

function abort(transaction: Transaction, name: string | null): void {
  if (transaction._state !== 'finished') transaction._abort(name);
}

function delayed(transaction: Transaction, ms: number): void {
  const start = transaction._start.bind(transaction);
  const end = Date.now() + ms;
  transaction._start = () => {
    if (Date.now() >= end) start();
    else setTimeout(() => transaction._start(), 1);
  };
}

/** Calls `before` at every request made in the transaction. */
function watchRequests(transaction: Transaction, before: () => void): void {
  const roomOf = transaction.objectStore.bind(transaction);
  transaction.objectStore = (name) => {
    const room = roomOf(name);
    for (const method of [
      'get',
      'getKey',
      'getAll',
      'add',
      'put',
      'delete',
      'count',
      'openKeyCursor',
    ]) {
      watchMethod(room, method, before);
    }
    return room;
  };
}

function watchMethod(room: IDBObjectStore, name: string, before: () => void): void {
  if (Object.hasOwn(room, name)) return;
  const methods = room as unknown as Record<string, Method>;
  const method = methods[name]?.bind(room);
  methods[name] = (...args) => {
    const answer = method?.(...args);
    before();
    return answer;
  };
}

/** Calls `before` when all requests are done; when that answers true it has seen to the end itself. */
function atCommit(transaction: Transaction, before: () => boolean): void {
  const start = transaction._start.bind(transaction);
  let asked = false;
  transaction._start = () => {
    if (!asked && transaction._requests.length === 0 && transaction._state !== 'finished') {
      asked = true;
      if (before()) return;
    }
    start();
  };
}

/** The opening says that an older window is in its way, and succeeds when that has gone. */
function blocked(request: IDBOpenDBRequest, ms: number): void {
  const dispatch = request.dispatchEvent.bind(request);
  const event = new IDBVersionChangeEvent('blocked', { oldVersion: 2, newVersion: 3 });
  setImmediate(() => dispatch(event as unknown as Event));
  request.dispatchEvent = (it) => {
    // An upgrade is the database's own turn: it cannot be put off from here.
    if (it.type !== 'success') return dispatch(it);
    setTimeout(() => dispatch(it), ms);
    return true;
  };
}

/** A database of another version, as a broken browser once answered. */
function oldVersion(): IDBOpenDBRequest {
  const other = new FakeFactory();
  void openRaw(other, 1);
  return other.open(DATABASE_NAME);
}
