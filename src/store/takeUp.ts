/**
 * Taking up the pen: the three places are compared, and the lesser copy is mended from the greater,
 * without a question.
 */
import type { DatabaseCopy } from './database.ts';
import type { Journal } from './journal/journal.ts';
import type { Comparison } from './journal/journalFile.ts';
import type { Ledger } from './op.ts';
import { StoreError } from './store.ts';
import type { Loss, Testimony, Witness } from './witness.ts';

/** Milliseconds after which a journal that does not answer is done without. */
const PATIENCE_MS = 2_500;

export interface Copies {
  readonly database: DatabaseCopy;
  /** Null where the browser has no place for one. */
  readonly journal: Journal | null;
  readonly witness: Witness;
  /** Names this window, and no other. */
  readonly by: string;
  /** The id of the store, should it be a new one. */
  readonly newStore: string;
}

/** Where the window that holds the pen stands. */
export interface Standing {
  readonly store: string;
  readonly ledger: Ledger | null;
  /** Whether writes go to the journal too. */
  readonly hasJournal: boolean;
  /** The last write in both copies. */
  readonly flushed: number;
  /** What was here and is gone, from every copy. */
  readonly loss: Loss | null;
}

export type Mended = Omit<Standing, 'loss'>;

/** Rejects with `StoreError`. A journal that does not work is no reason to. */
export async function takeUp(copies: Copies): Promise<Standing> {
  const { database, journal, witness, newStore } = copies;
  const ledger = await database.ledger();
  const found = await compared(journal, ledger);
  const before = witness.read();
  if (found?.kind === 'newer') throw newerJournal();
  const mended =
    journal === null || found === null || found.kind === 'same'
      ? standingAt(ledger, newStore, found !== null)
      : await (await import('./mend.ts')).mend(copies, journal, ledger, found);
  const isPatched = ledger === null && found?.kind === 'differs' && !found.isWhole;
  const lost = lossOf(before, mended.ledger, isPatched ? 'count' : 'place');
  // A journal that only does not answer now may still have what is missed.
  if (lost !== null && (journal === null || mended.hasJournal)) witness.setLoss(lost);
  if (lost === null && mended.ledger !== null) witness.write(mended.ledger);
  return { ...mended, loss: lost ?? witness.loss() };
}

async function compared(
  journal: Journal | null,
  ledger: Ledger | null,
): Promise<Comparison | null> {
  if (journal === null) return null;
  return within(PATIENCE_MS, journal.open(ledger)).catch(() => null);
}

/** Where a window stands whose copies hold the same, or that has only the first. */
export function standingAt(ledger: Ledger | null, store: string, hasJournal: boolean): Mended {
  const flushed = hasJournal ? (ledger?.n ?? 0) : (ledger?.flushed ?? 0);
  return { store: ledger?.store ?? store, ledger, hasJournal, flushed };
}

/**
 * What the witness has seen saved and nothing has any more. The witness may be some moments late: its
 * count says something only of what was put together from a damaged journal.
 */
function lossOf(was: Testimony | null, now: Ledger | null, told: 'count' | 'place'): Loss | null {
  if (was === null || was.n === 0) return null;
  const left = { events: now?.events ?? 0, warps: now?.warps ?? 0 };
  if (now !== null && now.store !== was.store) return null;
  const isLess = now === null || now.n < was.n || (told === 'count' && left.events < was.events);
  return isLess ? { was, left } : null;
}

/** Rejects when the work takes longer (ms). */
export function within<T>(limitMs: number, work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`got no answer in ${limitMs} ms`)), limitMs);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

/** Why a journal of a newer version of the app is left alone, and nothing beside it written. */
export function newerJournal(): StoreError {
  return new StoreError('newer-data', 'got the journal of a newer app');
}
