/** The second copy as the window sees it; the files are written in a worker. */
import type { Entry, Ledger, Place } from '../op.ts';
import type { Comparison } from './journalFile.ts';

/** Each rejects when it could not be done, and then nothing of it was. */
export interface Journal {
  /** Takes hold of the files and compares. */
  readonly open: (ledger: Ledger | null) => Promise<Comparison>;
  readonly append: (entry: Entry) => Promise<void>;
  readonly rewrite: (store: string, place: Place, entries: readonly Entry[]) => Promise<void>;
  /** Reads all of it; false when anything is damaged or missing that a database at this place has. */
  readonly isSound: (ledger: Ledger | null) => Promise<boolean>;
  /** Lets go of the files, so that another window can take them. */
  readonly close: () => Promise<void>;
}

/** What is asked of the worker, by name and with its arguments. */
export type Request = {
  readonly [name in keyof Journal]: {
    readonly id: number;
    readonly name: name;
    readonly args: Parameters<Journal[name]>;
  };
}[keyof Journal];

export interface Answer {
  readonly id: number;
  readonly value?: unknown;
  readonly error?: string;
}

/** Null where the browser has no private file system, no workers, or neither for this page. */
export function createWorkerJournal(): Journal | null {
  if (typeof Worker !== 'function' || typeof navigator.storage?.getDirectory !== 'function') {
    return null;
  }
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  return journalOver(worker);
}

/** A port to the worker, or a stand-in of it. */
export interface Port {
  readonly postMessage: (request: Request) => void;
  onmessage: ((event: MessageEvent<Answer>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

/**
 * The journal whose files are written beyond this port, from now on the only one to use it. Once the
 * port says it is broken, every call rejects, those still waiting too.
 */
export function journalOver(port: Port): Journal {
  const waiting = new Map<number, (answer: Answer) => void>();
  let asked = 0;
  let broken: string | null = null;
  port.onmessage = ({ data }) => {
    waiting.get(data.id)?.(data);
    waiting.delete(data.id);
  };
  port.onerror = ({ message }) => {
    // A worker that does not load says nothing else, ever.
    broken = `got a journal that does not work: ${message}`;
    for (const [id, answer] of waiting) answer({ id, error: broken });
    waiting.clear();
  };
  const ask = <T>(name: Request['name'], ...args: readonly unknown[]): Promise<T> =>
    new Promise((resolve, reject) => {
      if (broken !== null) throw new Error(broken);
      asked += 1;
      waiting.set(asked, ({ value, error }) => {
        if (error === undefined) resolve(value as T);
        else reject(new Error(error));
      });
      port.postMessage({ id: asked, name, args } as unknown as Request);
    });
  return {
    open: (ledger) => ask('open', ledger),
    append: (entry) => ask('append', entry),
    rewrite: (store, place, entries) => ask('rewrite', store, place, entries),
    isSound: (ledger) => ask('isSound', ledger),
    close: () => ask('close'),
  };
}
