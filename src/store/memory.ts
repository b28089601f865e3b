/**
 * The store in memory: for tests, and for a browser that keeps nothing for this page. It keeps and
 * refuses what the one in IndexedDB does, and forgets when the page goes.
 */
import type { EventId, LogEvent } from '../core/bench/events.ts';
import type { Plan } from '../core/plan/plan.ts';
import { plainCopy } from './plain.ts';
import type { PlanRevision, Store, StoredRevision, WarpRecord } from './store.ts';
import {
  closedByUs,
  eventOfOtherWarp,
  noSuchWarp,
  revisionAlreadyThere,
  warpAlreadyThere,
} from './trouble.ts';

/** @example const store = createMemoryStore(); */
export function createMemoryStore(): Store {
  const memory: Memory = { shelves: new Map(), warpOfEvent: new Map(), settings: new Map() };
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
    append: (event) => inOneTurn(() => append(memory, event)),
    eventsOf: (warp) => inOneTurn(() => structuredClone(memory.shelves.get(warp)?.log ?? [])),
    setting: (name) => inOneTurn(() => structuredClone(memory.settings.get(name))),
    setSetting: (name, value) =>
      inOneTurn(() => {
        memory.settings.set(name, plainCopy(value, name));
      }),
    close: () => {
      closed = true;
    },
  };
}

interface Memory {
  readonly shelves: Map<string, Shelf>;
  readonly warpOfEvent: Map<EventId, string>;
  readonly settings: Map<string, unknown>;
}

/** All that belongs to one warp. */
interface Shelf {
  warp: WarpRecord;
  readonly revisions: Map<number, StoredRevision>;
  readonly log: LogEvent[];
}

function warps({ shelves }: Memory): readonly WarpRecord[] {
  const byId = [...shelves].sort(([a], [b]) => (a < b ? -1 : 1));
  return byId.map(([, shelf]) => structuredClone(shelf.warp));
}

function addWarp({ shelves }: Memory, warp: WarpRecord, plan: Plan): void {
  const record = plainCopy(warp, 'warp');
  const first = { warp: warp.id, revision: 0, madeAt: warp.madeAt, plan: plainCopy(plan, 'plan') };
  if (shelves.has(warp.id)) throw warpAlreadyThere(warp.id);
  shelves.set(warp.id, { warp: record, revisions: new Map([[0, first]]), log: [] });
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

function removeWarp({ shelves, warpOfEvent }: Memory, id: string): void {
  for (const event of shelves.get(id)?.log ?? []) warpOfEvent.delete(event.id);
  shelves.delete(id);
}

function append({ shelves, warpOfEvent }: Memory, event: LogEvent): void {
  const copy = plainCopy(event, 'event');
  const knownIn = warpOfEvent.get(event.id);
  if (knownIn === event.warp) return;
  if (knownIn !== undefined) throw eventOfOtherWarp(event.id, event.warp);
  const shelf = shelves.get(event.warp);
  if (shelf === undefined) throw noSuchWarp(event.warp);
  shelf.log.push(copy);
  shelf.warp = { ...shelf.warp, wovenAt: event.at };
  warpOfEvent.set(event.id, event.warp);
}
