/** The database told as a history, and a history performed again in it: what a repair needs. */
import type { LogEvent } from '../core/bench/events.ts';
import { putLedger, readLedger, withoutPlace } from './database.ts';
import { wovenOn } from './log.ts';
import type { Entry, Ledger, Op, Place } from './op.ts';
import { byWarp, perform, type Some } from './perform.ts';
import { type ReadTransaction, ROOMS, type WriteTransaction } from './schema.ts';
import type { StoredRecord, StoredRevision, WarpRecord } from './store.ts';

/** Everything in the database as the shortest history that leads to it, each event on its own. */
export async function historyOf(tx: ReadTransaction): Promise<readonly Op[]> {
  const [warps, revisions, events, settings, records] = await Promise.all([
    tx.objectStore('warps').getAll(),
    tx.objectStore('revisions').getAll(),
    tx.objectStore('events').getAll(),
    tx.objectStore('settings').getAll(),
    tx.objectStore('records').getAll(),
  ]);
  const plansOf = (id: string) => revisions.filter(({ warp }) => warp === id);
  return [
    ...warps.flatMap((warp) => planned(warp, plansOf(warp.id))),
    ...events.map((event): Op => ({ kind: 'events', events: [withoutPlace(event)] })),
    // The log moves the time of weaving, but a warp that came by a file has its own.
    ...warps.filter((warp) => !isWovenAtLast(warp, events)).map(headAgain),
    ...settings.map(({ name, value }): Op => ({ kind: 'setting', name, value })),
    ...records.map((record): Op => ({ kind: 'record', record })),
  ];
}

function isWovenAtLast({ id, wovenAt }: WarpRecord, events: readonly LogEvent[]): boolean {
  const times = events.filter(({ warp }) => warp === id).map(({ at }) => at);
  return (times.toSorted().at(-1) ?? wovenAt) === wovenAt;
}

function headAgain(warp: WarpRecord): Op {
  return {
    kind: 'more',
    contents: { warps: [{ warp, plans: [], log: [] }], records: [], settings: [] },
  };
}

/**
 * A warp and its plans. Only a first plan as old as the warp stands in one line with it: a warp that
 * came by a file may have another, or none.
 */
function planned(warp: WarpRecord, revisions: readonly StoredRevision[]): readonly Op[] {
  const first = revisions.find((it) => it.revision === 0 && it.madeAt === warp.madeAt);
  const others = revisions.filter((it) => it !== first);
  return [
    first === undefined ? headAgain(warp) : { kind: 'warp', warp, plan: first.plan },
    ...others.map((revision): Op => ({ kind: 'revision', revision })),
  ];
}

export interface Replay {
  /** What the database has not, in order. */
  readonly missing: readonly Entry[];
  /** The store it was written for. */
  readonly origin: string;
  /** The id of the store here, should it have none yet. */
  readonly store: string;
  /** Where the database stands afterwards. */
  readonly place: Place;
  readonly flushed: number;
}

/**
 * Performs again what is missing, and never takes away or writes over what the database has got
 * since: a write of another history only adds. Answers the new ledger.
 */
export async function replay(tx: WriteTransaction, it: Replay): Promise<Ledger> {
  const before = await readLedger(tx);
  for (const { op, newer, woven } of grouped(it.missing, before, it.origin)) {
    if (before === null && woven !== undefined) await keepHead(tx, woven);
    if (await isToDo(tx, op, newer)) await perform(tx, op);
  }
  const [events, warps] = await Promise.all([
    tx.objectStore('events').count(),
    tx.objectStore('warps').count(),
  ]);
  const { place, flushed } = it;
  const ledger = { store: before?.store ?? it.store, ...place, flushed, events, warps };
  await putLedger(tx, ledger);
  return ledger;
}

interface Task {
  readonly op: Op;
  /** Whether it was made after everything the database has. */
  readonly newer: boolean;
  /** What was woven on one warp, where that is all. */
  readonly woven?: Some<LogEvent>;
}

/** Events that follow one another become one write: a log comes back in one go. */
function grouped(
  missing: readonly Entry[],
  before: Ledger | null,
  origin: string,
): readonly Task[] {
  const tasks: Task[] = [];
  let events: LogEvent[] = [];
  const finish = () => {
    for (const own of byWarp(events).values()) {
      tasks.push({ op: { kind: 'events', events: own }, newer: true, woven: own });
    }
    events = [];
  };
  for (const { op, n } of missing) {
    if (op.kind === 'events') events.push(...op.events);
    else {
      finish();
      const newer = before === null || (before.store === origin && n > before.n);
      const isWarpAgain = before === null && op.kind === 'warp';
      if (isWarpAgain) tasks.push(...inParts(op.warp, op.plan).map(onlyIfMissing));
      else if (newer) tasks.push({ op, newer });
      else tasks.push(...apart(op).map(onlyIfMissing));
    }
  }
  finish();
  return tasks;
}

const onlyIfMissing = (op: Op): Task => ({ op, newer: false });

/** A database that lost one of its rooms may have the plan of a warp, or its log, and not the warp. */
function inParts(warp: WarpRecord, plan: unknown): readonly Op[] {
  const first: StoredRevision = { warp: warp.id, revision: 0, madeAt: warp.madeAt, plan };
  return [headAgain(warp), { kind: 'revision', revision: first }];
}

/** Contents of another history, one thing after the other: each is only added where it is not there. */
function apart(op: Op): readonly Op[] {
  if (op.kind !== 'more' && op.kind !== 'all') return [op];
  const { warps, records, settings } = op.contents;
  return [
    ...warps.flatMap(({ warp, plans, log }): readonly Op[] => {
      const revisions = plans.map((plan) => ({ warp: warp.id, ...plan }));
      return [
        ...planned(warp, revisions),
        { kind: 'events', events: log.map((event) => ({ ...event, warp: warp.id })) },
      ];
    }),
    ...records.map((record): Op => ({ kind: 'record', record: record as StoredRecord })),
    ...settings.map(({ name, value }): Op => ({ kind: 'setting', name, value })),
  ];
}

async function isToDo(tx: WriteTransaction, op: Op, newer: boolean): Promise<boolean> {
  const hasWarp = async (id: string) => (await tx.objectStore('warps').getKey(id)) !== undefined;
  switch (op.kind) {
    case 'warp':
      return !(await hasWarp(op.warp.id));
    case 'revision': {
      const { warp, revision } = op.revision;
      const existing = await tx.objectStore('revisions').getKey([warp, revision]);
      return existing === undefined && (await hasWarp(warp));
    }
    case 'events': {
      const [id] = byWarp(op.events).keys();
      return id !== undefined && hasWarp(id);
    }
    case 'setting':
      return newer || (await tx.objectStore('settings').getKey(op.name)) === undefined;
    case 'record': {
      const { kind, id } = op.record;
      return newer || (await tx.objectStore('records').getKey([kind, id])) === undefined;
    }
    // Taken apart it is the head of one warp: an older one does not take the place of that here.
    case 'more': {
      const here = await Promise.all(op.contents.warps.map(({ warp }) => hasWarp(warp.id)));
      return newer || !here.includes(true);
    }
    case 'noWarp':
    case 'noRecord':
    case 'all':
      return newer;
  }
}

/**
 * Events whose warp was lost with its line are kept all the same, under a warp without a plan; and
 * they may be there while their warp came back only now.
 */
async function keepHead(tx: WriteTransaction, events: Some<LogEvent>): Promise<void> {
  const [{ warp: id, at: madeAt }] = events;
  const there = await tx.objectStore('warps').get(id);
  // No plan at all rather than an empty one: a backup brought in can still give it its own.
  const warp = there ?? { id, name: 'Recovered', demo: false, madeAt, wovenAt: null };
  await tx.objectStore('warps').put(wovenOn(warp, events));
}

/** Whether nothing was ever written. */
export async function isEmpty(tx: ReadTransaction): Promise<boolean> {
  const counts = await Promise.all(ROOMS.map((room) => tx.objectStore(room).count()));
  return counts.every((count) => count === 0);
}
