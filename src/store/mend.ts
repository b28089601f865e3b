/** Mending the lesser copy from the greater. Fetched when there is something to mend. */
import { NOTHING } from '../core/backup/contents.ts';
import { readLedger } from './database.ts';
import { historyOf, isEmpty, replay } from './history.ts';
import type { Journal } from './journal/journal.ts';
import type { Comparison } from './journal/journalFile.ts';
import { type Entry, isSamePlace, type Ledger, type Op, type Place } from './op.ts';
import type { ReadTransaction } from './schema.ts';
import {
  type Copies,
  type Mended,
  newerJournal,
  type Standing,
  standingAt,
  within,
} from './takeUp.ts';

const PATIENCE_MS = 10_000;
const REWRITE_MS = 60_000;

export type Difference = Extract<Comparison, { kind: 'none' | 'differs' }>;

/** Brings both copies to what either has. */
export async function mend(
  copies: Copies,
  journal: Journal,
  before: Ledger | null,
  found: Difference,
): Promise<Mended> {
  const { database, newStore } = copies;
  // Data without a ledger is in no journal, whatever that says of itself.
  const isUnnumbered = before === null && !(await database.survey(isEmpty));
  const differing = found.kind === 'none' ? NOTHING_SAID : found;
  const isTruth = differing.tellsAll && isSamePlace(seenLast(copies), differing.last);
  const said = isTruth
    ? insteadOfAll(differing)
    : { ...differing, isWhole: differing.isWhole && !isUnnumbered };
  // An empty store can have come a long way, too.
  const isBehind = before === null && said.isWhole && said.last.n > 0;
  const isLacking = said.missing.length > 0 || isUnnumbered || isBehind;
  const ledger = isLacking ? await mendDatabase(copies, before, said) : before;
  const store = ledger?.store ?? said.store ?? newStore;
  if (said.isWhole) return standingAt(ledger, store, true);
  const { n, by } = ledger ?? { n: 0, by: copies.by };
  const ops = await database.survey(historyOf);
  const entries = ops.map((op): Entry => ({ n, by, after: n, op }));
  const rewriting = within(REWRITE_MS, journal.rewrite(store, { n, by }, entries));
  return standingAt(ledger, store, await rewriting.then(yes, no));
}

/**
 * The journal was written anew after the database's last write, and the witness saw it last: the
 * database was turned back. What was taken away meanwhile must not come back with it.
 */
function insteadOfAll(said: Said): Said {
  const { last, missing } = said;
  const op: Op = { kind: 'all', contents: NOTHING };
  return { ...said, isWhole: true, missing: [{ ...last, after: last.n, op }, ...missing] };
}

function seenLast({ witness }: Copies): Place | null {
  const seen = witness.read();
  return seen?.by === undefined ? null : { n: seen.n, by: seen.by };
}

type Said = Extract<Comparison, { kind: 'differs' }>;
const NOTHING_SAID: Said = {
  kind: 'differs',
  store: null,
  last: { n: 0, by: '' },
  isWhole: false,
  tellsAll: false,
  missing: [],
};

/** Gives the database what it lacks, and a ledger if it had none. */
function mendDatabase(
  { database, by, newStore }: Copies,
  before: Ledger | null,
  { store: origin, last, isWhole, missing }: Said,
): Promise<Ledger> {
  const store = before?.store ?? origin ?? newStore;
  const place = isWhole ? last : { n: Math.max(before?.n ?? 0, last.n) + 1, by };
  const flushed = isWhole ? last.n : (before?.flushed ?? 0);
  return database.repair((tx) =>
    replay(tx, { missing, origin: origin ?? store, store, place, flushed }),
  );
}

/** Has every copy take in what it lacks of the other, whatever they say of themselves. */
export async function mendThoroughly(copies: Copies, journal: Journal): Promise<Standing> {
  const ledger = await copies.database.ledger();
  const all = await within(PATIENCE_MS, journal.open(null));
  // Nothing is the same as no database at all.
  if (all.kind === 'newer' || all.kind === 'same') throw newerJournal();
  const found = all.kind === 'differs' ? { ...all, isWhole: false } : all;
  return { ...(await mend(copies, journal, ledger, found)), loss: copies.witness.loss() };
}

/** Whether the database holds as many events as its ledger says. */
export async function isComplete(tx: ReadTransaction): Promise<boolean> {
  const [ledger, events] = await Promise.all([readLedger(tx), tx.objectStore('events').count()]);
  return ledger === null || ledger.events === events;
}

const yes = () => true;
const no = () => false;
