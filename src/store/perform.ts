/** Performing a write in a transaction: for the first time, or again from the journal. */
import type { LogEvent } from '../core/bench/events.ts';
import { addContents, replaceContents } from './bulk.ts';
import { withoutRepeats, wovenOn } from './log.ts';
import type { Op } from './op.ts';
import { keysOfWarp, type WriteTransaction } from './schema.ts';
import type { StoredRevision, WarpRecord } from './store.ts';
import { asked } from './transaction.ts';
import { noSuchWarp, revisionAlreadyThere, warpAlreadyThere } from './trouble.ts';

/** How many more there are now. */
export interface Tally {
  readonly events: number;
  readonly warps: number;
}

const NONE: Tally = { events: 0, warps: 0 };

/** Throws what may not be: an id twice, a warp that is not there. */
export async function perform(tx: WriteTransaction, op: Op): Promise<Tally> {
  switch (op.kind) {
    case 'warp':
      return addWarp(tx, op.warp, op.plan);
    case 'revision':
      return addRevision(tx, op.revision);
    case 'events':
      return appendAll(tx, op.events);
    case 'noWarp':
      return removeWarp(tx, op.id);
    case 'setting':
      await tx.objectStore('settings').put({ name: op.name, value: op.value });
      return NONE;
    case 'record':
      await tx.objectStore('records').put(op.record);
      return NONE;
    case 'noRecord':
      await tx.objectStore('records').delete([op.of, op.id]);
      return NONE;
    case 'more':
      return counted(tx, () => addContents(tx, op.contents));
    case 'all':
      return counted(tx, () => replaceContents(tx, op.contents));
  }
}

/** How many more there are after work that does not count itself. */
async function counted(tx: WriteTransaction, work: () => Promise<void>): Promise<Tally> {
  const count = () =>
    Promise.all([tx.objectStore('events').count(), tx.objectStore('warps').count()]);
  const [eventsBefore, warpsBefore] = await count();
  await work();
  const [events, warps] = await count();
  return { events: events - eventsBefore, warps: warps - warpsBefore };
}

async function addWarp(tx: WriteTransaction, warp: WarpRecord, plan: unknown): Promise<Tally> {
  const warps = tx.objectStore('warps');
  if ((await warps.getKey(warp.id)) !== undefined) throw warpAlreadyThere(warp.id);
  const first = { warp: warp.id, revision: 0, madeAt: warp.madeAt, plan };
  await Promise.all([warps.add(warp), tx.objectStore('revisions').add(first)]);
  return { events: 0, warps: 1 };
}

async function addRevision(tx: WriteTransaction, revision: StoredRevision): Promise<Tally> {
  const revisions = tx.objectStore('revisions');
  const [warp, existing] = await Promise.all([
    tx.objectStore('warps').getKey(revision.warp),
    revisions.getKey([revision.warp, revision.revision]),
  ]);
  if (warp === undefined) throw noSuchWarp(revision.warp);
  if (existing !== undefined) throw revisionAlreadyThere(revision.warp, revision.revision);
  await revisions.add(revision);
  return NONE;
}

async function removeWarp(tx: WriteTransaction, id: string): Promise<Tally> {
  const [warps, events] = [tx.objectStore('warps'), tx.objectStore('events')];
  const [warp, count] = await Promise.all([
    warps.getKey(id),
    events.count(keysOfWarp(id)),
    warps.delete(id),
    tx.objectStore('revisions').delete(keysOfWarp(id)),
    events.delete(keysOfWarp(id)),
  ]);
  return { events: -count, warps: warp === undefined ? 0 : -1 };
}

async function appendAll(tx: WriteTransaction, events: readonly LogEvent[]): Promise<Tally> {
  let fresh = 0;
  for (const [warp, own] of byWarp(events)) fresh += await appendTo(tx, warp, own);
  return { events: fresh, warps: 0 };
}

/** At least one. */
export type Some<T> = readonly [T, ...T[]];

/** The events of each warp, in their order. */
export function byWarp(events: readonly LogEvent[]): ReadonlyMap<string, Some<LogEvent>> {
  const found = new Map<string, [LogEvent, ...LogEvent[]]>();
  for (const event of events) {
    const own = found.get(event.warp);
    if (own === undefined) found.set(event.warp, [event]);
    else own.push(event);
  }
  return found;
}

/**
 * The place is read from the end of the log each time instead of being remembered: one seek, and
 * right whoever else has written meanwhile. Answers how many were not there yet.
 */
async function appendTo(
  tx: WriteTransaction,
  id: string,
  events: readonly LogEvent[],
): Promise<number> {
  const [warps, log] = [tx.objectStore('warps'), tx.objectStore('events')];
  const [warp, last, ...known] = await Promise.all([
    warps.get(id),
    log.openKeyCursor(keysOfWarp(id), 'prev'),
    ...events.map((event) => log.index('id').getKey([id, event.id])),
  ]);
  if (warp === undefined) throw noSuchWarp(id);
  const fresh = withoutRepeats(events.filter((_, n) => known[n] === undefined));
  if (fresh.length === 0) return 0;
  const seq = last === null ? 0 : last.primaryKey[1] + 1;
  for (const [n, event] of fresh.entries()) asked(log.add({ ...event, seq: seq + n }));
  asked(warps.put(wovenOn(warp, fresh)));
  return fresh.length;
}
