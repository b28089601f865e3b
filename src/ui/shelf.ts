/**
 * The shelf as the screens see it: read from the store when a screen first wants it, and written
 * back with every change.
 */
import { batch, computed, signal } from '@preact/signals';
import { checkPlan } from '../core/plan/checkPlan.ts';
import {
  decodeShelfHeddle,
  decodeShelfYarn,
  onHandOf,
  type ShelfHeddle,
  type ShelfYarn,
  type Weighing,
  weighedAgain,
} from '../core/plan/shelf.ts';
import { type ShelfWarp, takesFromShelf, useOfYarns } from '../core/planner/shelfUse.ts';
import type { RecordKind } from '../store/store.ts';
import { guarded, newId, now, theStore } from './actions.ts';

/** By name. */
export const yarnShelf = signal<readonly ShelfYarn[]>([]);
export const heddleShelf = signal<readonly ShelfHeddle[]>([]);
/** The warps that take yarn of the shelf, planned and woven. */
const shelfWarps = signal<readonly ShelfWarp[]>([]);
/** What is left of each yarn and still wanted of it, by its id. */
export const yarnAccounts = computed(() => useOfYarns(yarnShelf.value, shelfWarps.value));

export type ShelfThing =
  | { readonly kind: 'yarn'; readonly it: ShelfYarn }
  | { readonly kind: 'heddle'; readonly it: ShelfHeddle };
/** What was taken off the shelf last; it can be put back until the screen is left. */
export const takenOff = signal<ShelfThing | null>(null);

/** The last write asked for: whoever reads the store waits for it, or would miss it. */
let saving: Promise<unknown> = Promise.resolve();

function save(work: Promise<unknown>): void {
  saving = guarded(work);
}

/** Reads the shelf and who takes from it. What cannot be read is left where it is, unshown. */
export async function loadShelf(): Promise<void> {
  await saving;
  await guarded(readShelf());
}

async function readShelf(): Promise<void> {
  const store = theStore();
  const [yarns, heddles, warps] = await Promise.all([
    store.records('yarn'),
    store.records('heddle'),
    readWarps(),
  ]);
  batch(() => {
    takenOff.value = null;
    yarnShelf.value = byName(yarns.flatMap(({ body }) => readable(decodeShelfYarn(body))));
    heddleShelf.value = byName(heddles.flatMap(({ body }) => readable(decodeShelfHeddle(body))));
    shelfWarps.value = warps;
  });
}

async function readWarps(): Promise<readonly ShelfWarp[]> {
  const store = theStore();
  const all = await Promise.all(
    (await store.warps()).map(async ({ id, name }): Promise<readonly ShelfWarp[]> => {
      const checked = checkPlan((await store.revisionsOf(id)).at(-1)?.plan);
      if (!checked.ok || !takesFromShelf({ plan: checked.value })) return [];
      return [{ id, name, plan: checked.value, log: await store.eventsOf(id) }];
    }),
  );
  return all.flat();
}

/** Grams of a yarn on hand now, what was woven since the last weighing taken off; null: not weighed. */
export function gramsLeft(yarn: ShelfYarn): number | null {
  const account = yarnAccounts.value.get(yarn.id);
  return account === undefined ? onHandOf(yarn) : account.left;
}

/** A weighing as it was read off the scale, before it has a time. */
export type Reading = Omit<Weighing, 'at'>;

/** Puts a new yarn on the shelf, weighed or not. */
export function addYarn(
  kind: Omit<ShelfYarn, 'id' | 'weighed'>,
  reading: Reading | null,
): ShelfYarn {
  const yarn: ShelfYarn = {
    ...kind,
    id: newId(),
    weighed: reading === null ? [] : [{ at: now(), ...reading }],
  };
  put({ kind: 'yarn', it: yarn });
  return yarn;
}

export function changeYarn(yarn: ShelfYarn): void {
  put({ kind: 'yarn', it: yarn });
}

/** From now on the yarn's weight is reckoned from this reading. */
export function weigh(yarn: ShelfYarn, reading: Reading): void {
  put({ kind: 'yarn', it: weighedAgain(yarn, { at: now(), ...reading }) });
}

/** The same for a yarn weighed elsewhere; one that is no longer on the shelf is left alone. */
export async function weighById(id: string, reading: Reading): Promise<void> {
  await loadShelf();
  const yarn = yarnShelf.peek().find((it) => it.id === id);
  if (yarn !== undefined) weigh(yarn, reading);
}

export function addHeddle(heddle: Omit<ShelfHeddle, 'id'>): void {
  put({ kind: 'heddle', it: { ...heddle, id: newId() } });
}

export function changeHeddle(heddle: ShelfHeddle): void {
  put({ kind: 'heddle', it: heddle });
}

/** Takes it off the shelf; `putBack` undoes it. Warps that name it keep its name and colour. */
export function takeOff(thing: ShelfThing): void {
  batch(() => {
    if (thing.kind === 'yarn') yarnShelf.value = without(yarnShelf.peek(), thing.it.id);
    else heddleShelf.value = without(heddleShelf.peek(), thing.it.id);
    takenOff.value = thing;
  });
  save(theStore().removeRecord(thing.kind, thing.it.id));
}

/** Puts back what was taken off last, as it was. */
export function putBack(): void {
  const thing = takenOff.peek();
  if (thing !== null) put(thing);
}

function put(thing: ShelfThing): void {
  batch(() => {
    takenOff.value = null;
    if (thing.kind === 'yarn') yarnShelf.value = among(yarnShelf.peek(), thing.it);
    else heddleShelf.value = among(heddleShelf.peek(), thing.it);
  });
  const kind: RecordKind = thing.kind;
  const record = { kind, id: thing.it.id, changedAt: now(), body: thing.it };
  save(theStore().putRecord(record));
}

interface Named {
  readonly id: string;
  readonly name: string;
}

function among<T extends Named>(shelf: readonly T[], thing: T): readonly T[] {
  return byName([...without(shelf, thing.id), thing]);
}

function without<T extends Named>(shelf: readonly T[], id: string): readonly T[] {
  return shelf.filter((it) => it.id !== id);
}

function byName<T extends Named>(shelf: readonly T[]): readonly T[] {
  return [...shelf].sort((a, b) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1));
}

function readable<T>(
  read: { readonly ok: true; readonly value: T } | { readonly ok: false },
): readonly T[] {
  return read.ok ? [read.value] : [];
}
