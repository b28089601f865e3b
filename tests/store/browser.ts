/**
 * A browser whose database goes wrong on request. The database is fake-indexeddb; the faults reach
 * into its transactions, because nothing that it offers itself makes a commit fail.
 */
import 'fake-indexeddb/auto';
import { IDBFactory as FakeFactory, forceCloseDatabase } from 'fake-indexeddb';

export interface Browser {
  readonly indexedDB: IDBFactory;
  /** Every handle opened so far, the newest last. */
  readonly handles: readonly IDBDatabase[];
  /** Every transaction for writing so far, upgrades left out. */
  readonly writes: readonly IDBTransaction[];
  /** How many times opening was asked for. */
  readonly opens: () => number;
}

/** What goes wrong in one transaction. */
export type Fault = (transaction: FakeTransaction) => void;

interface FakeTransaction extends IDBTransaction {
  readonly _state: string;
  readonly _requests: readonly { readonly request: IDBRequest }[];
  _start: () => void;
  readonly _abort: (errorName: string | null) => void;
}

/** A fresh browser. `faultOf` says what goes wrong in its nth transaction for writing, from 0. */
export function freshBrowser(faultOf: (n: number) => Fault | undefined = () => undefined): Browser {
  const factory = new FakeFactory();
  const handles: IDBDatabase[] = [];
  const writes: IDBTransaction[] = [];
  let opened = 0;
  const open = factory.open.bind(factory);
  factory.open = (name, version) => {
    opened += 1;
    const request = open(name, version);
    request.addEventListener('success', () => {
      handles.push(request.result);
      watchWrites(request.result, (transaction) => {
        faultOf(writes.length)?.(transaction);
        writes.push(transaction);
      });
    });
    return request;
  };
  return { indexedDB: factory, handles, writes, opens: () => opened };
}

/** The disk is found full at a request. */
export const fullAtRequest: Fault = (transaction) => {
  setImmediate(() => transaction._abort('QuotaExceededError'));
};

/** Every request succeeds and the disk is found full at the commit. */
export const fullAtCommit: Fault = (transaction) =>
  insteadOfCommit(transaction, () => transaction._abort('QuotaExceededError'));

/** The connection goes while the transaction runs: nothing of it is kept, and nobody says why. */
export const lostBeforeCommit: Fault = (transaction) =>
  insteadOfCommit(transaction, () => transaction._abort(null));

/** The commit is on disk, but the connection goes before it can say so. */
export const lostAfterCommit: Fault = (transaction) => {
  const dispatch = transaction.dispatchEvent.bind(transaction);
  transaction.dispatchEvent = (event) => {
    if (event.type === 'complete') Object.assign(event, { type: 'abort' });
    return dispatch(event);
  };
};

/** The system closes the newest handle and says so by a `close` event. */
export function closeLoudly({ handles }: Browser): void {
  const force: unknown = forceCloseDatabase;
  const newest = handles.at(-1);
  if (newest !== undefined) (force as (handle: IDBDatabase) => void)(newest);
}

/** The newest handle is dead and nobody was told. */
export function closeSilently({ handles }: Browser): void {
  handles.at(-1)?.close();
}

function watchWrites(handle: IDBDatabase, watch: (transaction: FakeTransaction) => void): void {
  const begin = handle.transaction.bind(handle);
  handle.transaction = (rooms, mode, options) => {
    const transaction = begin(rooms, mode, options);
    if (mode === 'readwrite') watch(transaction as FakeTransaction);
    return transaction;
  };
}

function insteadOfCommit(transaction: FakeTransaction, act: () => void): void {
  const step = transaction._start.bind(transaction);
  transaction._start = () => {
    const waits = transaction._requests.some(({ request }) => request.readyState !== 'done');
    if (waits || transaction._state === 'finished') step();
    else act();
  };
}
