/**
 * The store in memory: for tests, and for a browser that keeps nothing for this page. It keeps and
 * refuses what the one in IndexedDB does, and forgets when the page goes.
 */
import type { Contents, WarpContents } from '../core/backup/contents.ts';
import type { EventId, LogEvent } from '../core/bench/events.ts';
import type { Plan } from '../core/plan/plan.ts';
import { withoutRepeats, wovenOn } from './log.ts';
import { byWarp } from './perform.ts';
import { plainCopy } from './plain.ts';
import type {
  PlanRevision,
  RecordKind,
  Store,
  StoredRecord,
  StoredRevision,
  WarpRecord,
} from './store.ts';
import { closedByUs, noSuchWarp, revisionAlreadyThere, warpAlreadyThere } from './trouble.ts';

/** @example const store = createMemoryStore(); */
export function createMemoryStore(): Store {
  const memory: Memory = { shelves: new Map(), settings: new Map(), records: new Map() };
  let closed = false;
  // No call can come between: with its checks first, what happens in one turn is all or nothing.
  const inOneTurn = async <T>(work: () => T): Promise<T> => {
    if (closed) throw closedByUs();
    return work();
  };
  return {
    warps: () => inOneTurn(() => warps(memory)),
    addWarp: (warp, plan) => inOneTurn(() => addWarp(memory, warp, plan)),
    addRevision: (revision) => inOneTurn(() => addRevision(memory, revision)),
    revisionsOf: (warp) => inOneTurn(() => revisionsOf(memory, warp)),
    removeWarp: (id) => inOneTurn(() => removeWarp(memory, id)),
    append: (event) => inOneTurn(() => appendAll(memory, [plainCopy(event, 'event')])),
    appendAll: (events) => inOneTurn(() => appendAll(memory, plainCopy(events, 'events'))),
    eventsOf: (warp, from, to) =>
      inOneTurn(() => structuredClone(memory.shelves.get(warp)?.log.slice(from, to) ?? [])),
    setting: (name) => inOneTurn(() => structuredClone(memory.settings.get(name))),
    setSetting: (name, value) =>
      inOneTurn(() => {
        memory.settings.set(name, plainCopy(value, name));
      }),
    records: (kind) => inOneTurn(() => records(memory, kind)),
    record: (kind, id) =>
      inOneTurn(() => structuredClone(memory.records.get(keyOfRecord(kind, id)))),
    putRecord: (record) =>
      inOneTurn(() => {
        const key = keyOfRecord(record.kind, record.id);
        memory.records.set(key, plainCopy(record, 'record'));
      }),
    removeRecord: (kind, id) =>
      inOneTurn(() => {
        memory.records.delete(keyOfRecord(kind, id));
      }),
    contents: () => inOneTurn(() => contents(memory)),
    addContents: (more) => inOneTurn(() => addContents(memory, plainCopy(more, 'contents'))),
    replaceContents: (all) => inOneTurn(() => replaceContents(memory, plainCopy(all, 'contents'))),
    close: () => {
      closed = true;
    },
  };
}

interface Memory {
  readonly shelves: Map<string, Shelf>;
  readonly settings: Map<string, unknown>;
  readonly records: Map<string, StoredRecord>;
}

/** All that belongs to one warp. */
interface Shelf {
  warp: WarpRecord;
  readonly revisions: Map<number, StoredRevision>;
  readonly log: LogEvent[];
  readonly ids: Set<EventId>;
}

function warps(memory: Memory): readonly WarpRecord[] {
  return byId(memory).map(({ warp }) => structuredClone(warp));
}

function byId({ shelves }: Memory): readonly Shelf[] {
  return [...shelves].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, shelf]) => shelf);
}

function addWarp({ shelves }: Memory, warp: WarpRecord, plan: Plan): void {
  const record = plainCopy(warp, 'warp');
  const first = { warp: warp.id, revision: 0, madeAt: warp.madeAt, plan: plainCopy(plan, 'plan') };
  if (shelves.has(warp.id)) throw warpAlreadyThere(warp.id);
  shelves.set(warp.id, { warp: record, revisions: new Map([[0, first]]), log: [], ids: new Set() });
}

function addRevision({ shelves }: Memory, revision: PlanRevision): void {
  const record = plainCopy(revision, 'revision');
  const shelf = shelves.get(revision.warp);
  if (shelf === undefined) throw noSuchWarp(revision.warp);
  if (shelf.revisions.has(revision.revision)) {
    throw revisionAlreadyThere(revision.warp, revision.revision);
  }
  shelf.revisions.set(revision.revision, record);
}

function revisionsOf({ shelves }: Memory, warp: string): readonly StoredRevision[] {
  const revisions = [...(shelves.get(warp)?.revisions.values() ?? [])];
  return structuredClone(revisions.sort((a, b) => a.revision - b.revision));
}

function removeWarp({ shelves }: Memory, id: string): void {
  shelves.delete(id);
}

function appendAll({ shelves }: Memory, events: readonly LogEvent[]): void {
  // All are looked for before the first is written to.
  const each = [...byWarp(events)].map(([id, own]): [Shelf, readonly LogEvent[]] => {
    const shelf = shelves.get(id);
    if (shelf === undefined) throw noSuchWarp(id);
    return [shelf, own];
  });
  for (const [shelf, own] of each) appendTo(shelf, own);
}

function appendTo(shelf: Shelf, events: readonly LogEvent[]): void {
  const fresh = withoutRepeats(events).filter(({ id }) => !shelf.ids.has(id));
  if (fresh.length === 0) return;
  for (const event of fresh) {
    shelf.log.push(event);
    shelf.ids.add(event.id);
  }
  shelf.warp = wovenOn(shelf.warp, fresh);
}

function records({ records }: Memory, kind: RecordKind): readonly StoredRecord[] {
  const ofKind = [...records.values()].filter((record) => record.kind === kind);
  return structuredClone(ofKind.sort((a, b) => (a.id < b.id ? -1 : 1)));
}

/** A kind has no blank, so no two pairs share a key. */
function keyOfRecord(kind: RecordKind, id: string): string {
  return `${kind} ${id}`;
}

function contents(memory: Memory): Contents {
  const ofWarp = ({ warp, log }: Shelf): WarpContents => ({
    warp,
    plans: revisionsOf(memory, warp.id).map(({ warp: _, ...plan }) => plan),
    log,
  });
  const kept = [...memory.records].sort(([a], [b]) => (a < b ? -1 : 1));
  const settings = [...memory.settings].sort(([a], [b]) => (a < b ? -1 : 1));
  return structuredClone({
    warps: byId(memory).map(ofWarp),
    records: kept.map(([, record]) => record),
    settings: settings.map(([name, value]) => ({ name, value })),
  });
}

function addContents(memory: Memory, more: Contents): void {
  for (const it of more.warps) addWarpContents(memory, it);
  for (const record of more.records as readonly StoredRecord[]) {
    memory.records.set(keyOfRecord(record.kind, record.id), record);
  }
  for (const { name, value } of more.settings) memory.settings.set(name, value);
}

function addWarpContents({ shelves }: Memory, { warp, plans, log }: WarpContents): void {
  const shelf = shelves.get(warp.id) ?? { warp, revisions: new Map(), log: [], ids: new Set() };
  shelves.set(warp.id, shelf);
  for (const plan of plans) {
    if (!shelf.revisions.has(plan.revision)) {
      shelf.revisions.set(plan.revision, { warp: warp.id, ...plan });
    }
  }
  appendTo(
    shelf,
    log.map((event) => ({ ...event, warp: warp.id })),
  );
  shelf.warp = warp;
}

function replaceContents(memory: Memory, contents: Contents): void {
  for (const room of Object.values(memory)) room.clear();
  addContents(memory, contents);
}
