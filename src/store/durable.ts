/**
 * The store in both copies, shared by the windows of the app: one of them writes at a time, and a
 * write of any other takes the pen first.
 */
import type { Readers } from './database.ts';
import { createDesk, type Desk, type DeskOptions, isSettled } from './desk.ts';
import type { Listener, StoreState } from './herald.ts';
import type { Store } from './store.ts';
import { closedByUs } from './trouble.ts';
import { writersBy } from './writers.ts';

export interface DurableStore extends Store {
  readonly state: () => StoreState;
  readonly listen: (listener: Listener) => void;
  /** Resolves when this window writes and knows what the others wrote. Never rejects. */
  readonly takePen: () => Promise<void>;
  /** Reads both copies through, which no launch does, and mends what is damaged. */
  readonly check: () => Promise<void>;
  /** The weaver has taken note of the loss. */
  readonly forgetLoss: () => void;
}

export interface OpenOptions extends DeskOptions {
  /**
   * Called as soon as the database can be read, while it is still being looked at; and again where
   * what was read then has been mended.
   */
  readonly onReadable?: (read: Readers) => void;
}

/**
 * Opens the store on its copies. Where the database has all that the witness saw saved, comparing it
 * with the journal keeps nobody waiting but the first write; else it comes first.
 */
export async function openDurable(options: OpenOptions): Promise<DurableStore> {
  const { database, witness, onReadable } = options;
  onReadable?.(database);
  const ledger = await database.ledger();
  const seen = witness.read();
  const desk = createDesk(options, ledger);
  const isBehind = seen?.store === ledger?.store && (ledger?.n ?? 0) < (seen?.n ?? 0);
  if (ledger === null || isBehind) {
    await settled(desk);
    onReadable?.(database);
  }

  let closed = false;
  const open =
    <Args extends readonly unknown[], T>(work: (...args: Args) => Promise<T>) =>
    async (...args: Args): Promise<T> => {
      if (closed) throw closedByUs();
      return work(...args);
    };
  return {
    ...writersBy(open(desk.write)),
    warps: open(database.warps),
    revisionsOf: open(database.revisionsOf),
    eventsOf: open(database.eventsOf),
    setting: open(database.setting),
    records: open(database.records),
    record: open(database.record),
    contents: open(database.contents),
    state: desk.herald.state,
    listen: desk.herald.listen,
    takePen: desk.takePen,
    check: desk.check,
    forgetLoss: () => {
      witness.forget();
      desk.herald.setState({ loss: null });
    },
    close: () => {
      closed = true;
      // Behind the writes already asked for: they were promised an answer.
      void desk.close().then(database.close);
    },
  };
}

/** Of a desk just made, which is settled in a later turn at the earliest. */
function settled({ herald }: Desk): Promise<void> {
  return new Promise((resolve) => {
    herald.listen((news) => {
      if (news.kind === 'state' && isSettled(news.state)) resolve();
    });
  });
}
