/**
 * One transaction, from its first request to its commit.
 *
 * The work awaits nothing but its own requests: anything else would let the first half commit.
 */
import type { Database, ReadTransaction, RoomName, WriteTransaction } from './schema.ts';

/** Runs `work` and resolves when its writes are on disk; rejects when nothing of it is. */
export function writing<T>(
  database: Database,
  rooms: RoomName[],
  work: (transaction: WriteTransaction) => Promise<T>,
): Promise<T> {
  // Strict: the relaxed default reports a commit that a power cut can still take back.
  const transaction = database.transaction(rooms, 'readwrite', { durability: 'strict' });
  return committed(transaction, async (tx) => {
    const result = await work(tx);
    commit(tx);
    return result;
  });
}

/** Runs `work` on one consistent state of the rooms. */
export function reading<T>(
  database: Database,
  rooms: RoomName[],
  work: (transaction: ReadTransaction) => Promise<T>,
): Promise<T> {
  return committed(database.transaction(rooms, 'readonly'), work);
}

async function committed<Tx extends ReadTransaction | WriteTransaction, T>(
  transaction: Tx,
  work: (transaction: Tx) => Promise<T>,
): Promise<T> {
  // `done` can reject while the work still waits for a request: that must not count as unhandled.
  transaction.done.catch(() => undefined);
  try {
    const result = await work(transaction);
    await transaction.done;
    return result;
  } catch (error) {
    abort(transaction);
    // A cancelled request only says AbortError; the reason (a full disk) is the transaction's.
    throw transaction.error ?? error;
  }
}

/**
 * A write asked for and not waited for: what becomes of it the transaction says as a whole, and
 * every answer waited for is one more turn of a page that may be busy painting.
 */
export function asked(write: Promise<unknown>): void {
  write.catch(() => undefined);
}

/**
 * Told that nothing more comes, the database need not wait for the page to have heard of its last
 * request: a page that is painting hears late.
 */
function commit(transaction: WriteTransaction): void {
  try {
    transaction.commit();
  } catch {
    // No longer active: it commits by itself, or is aborted and says so.
  }
}

/** A throw alone does not roll back: what was requested before it would be committed. */
function abort(transaction: ReadTransaction | WriteTransaction): void {
  try {
    transaction.abort();
  } catch {
    // Already aborted, which is what was wanted.
  }
}
