/** Intent → event → store → signal. The only place that reads the clock and makes ids. */
import { batch } from '@preact/signals';
import { freeAtFell } from '../core/bench/byEye/throwing.ts';
import type { Happening, LogEvent } from '../core/bench/events.ts';
import { happened } from '../core/bench/happened.ts';
import { foldedOn } from '../core/bench/kept.ts';
import { yarnAt } from '../core/bench/pickAt.ts';
import { needsRefold, redoTarget, undoTarget } from '../core/bench/undo.ts';
import type { Units } from '../core/measure/length.ts';
import type { Letter, Plan } from '../core/plan/plan.ts';
import { keepFold } from '../store/folds.ts';
import { type Store, StoreError, type StoreTrouble, type WarpRecord } from '../store/store.ts';
import { withPen } from './device/windows.ts';
import { type Asked, askFor, NOTHING, readFirst, sessionFrom } from './loading.ts';
import { say } from './messages.ts';
import { foldAtHand, inTurn, whenWhole, wholeLog } from './resuming.ts';
import { createSaver } from './saver.ts';
import {
  DEFAULT_SETTINGS,
  isOfThisScreen,
  notice,
  type Settings,
  screen,
  session,
  settings,
  storeState,
  trouble,
  warpCards,
} from './state.ts';

let store: Store | null = null;
/** Trouble that lasts as long as the page: a browser that keeps nothing does not mend by itself. */
let standing: StoreTrouble | null = null;

export function theStore(): Store {
  if (store === null) throw new Error('actions: wanted an open store, got none');
  return store;
}

export const now = () => new Date().toISOString();

/** Short ids, unique across devices: 96 random bits. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => byte.toString(36).padStart(2, '0')).join('');
}

/** Puts the warp that was being woven back on the bench, without a question. */
export async function start(opened: Store, first = readFirst(opened, foldAtHand())): Promise<void> {
  store = opened;
  standing = trouble.peek();
  const { weaving, bench, asked, ...read } = await first;
  settings.value = readSettings(read.settings);
  const kind = BENCHES.find((it) => it === bench) ?? 'weave';
  if (typeof weaving === 'string') {
    const isAsked = kind === 'weave' && asked?.id === weaving;
    await bringUp(kind, isAsked ? asked : await askFor(opened, weaving, NOTHING));
  }
  if (session.value === null) await showWarps();
}

export async function loadSettings(): Promise<void> {
  settings.value = readSettings(await theStore().setting('settings'));
}

function readSettings(stored: unknown): Settings {
  const known = typeof stored === 'object' && stored !== null ? (stored as Partial<Settings>) : {};
  return { ...DEFAULT_SETTINGS, units: unitsOfReader(navigator.language), ...known };
}

/** Inches in the United States; English without a country is most often theirs. */
function unitsOfReader(language: string): Units {
  return /^en$|-US\b/i.test(language) ? 'inch' : 'metric';
}

export function changeSettings(change: Partial<Settings>): void {
  settings.value = { ...settings.peek(), ...change };
  void guarded(theStore().setSetting('settings', settings.peek()));
}

export async function showWarps(): Promise<void> {
  await allSaved();
  const cards = await (await import('./cards.ts')).loadCards();
  batch(() => {
    warpCards.value = cards;
    session.value = null;
    screen.value = { kind: 'warps' };
  });
  await remember('weaving', null);
}

/** A place to come back to. A window that only follows has none, and none is written twice. */
async function remember(name: 'weaving' | 'bench', value: string | null): Promise<void> {
  if (storeState.peek().pen === 'elsewhere') return;
  if (((await theStore().setting(name)) ?? null) === value) return;
  await guarded(theStore().setSetting(name, value));
}

export function showYarns(): void {
  batch(() => {
    notice.value = null;
    screen.value = { kind: 'yarns' };
  });
}

export function showKeepSafe(): void {
  batch(() => {
    notice.value = null;
    screen.value = { kind: 'keep' };
  });
}

/** The screens of one warp: the one that was open is open again after a restart. */
const BENCHES = ['weave', 'warping', 'measure', 'journal'] as const;
export type Bench = (typeof BENCHES)[number];

/** Puts a stored warp on the bench at its last pick. */
export const weave = (id: string): Promise<void> => open(id, 'weave');

/** Opens the warping list of a stored warp at the step to do next. */
export const openWarping = (id: string): Promise<void> => open(id, 'warping');

/** What the cloth of a stored warp became. */
export const openMeasure = (id: string): Promise<void> => open(id, 'measure');

/** The story of a stored warp. */
export const openJournal = (id: string): Promise<void> => open(id, 'journal');

/** From one screen of the warp on the bench to another. */
export function turnTo(kind: Bench): void {
  whenWhole(() => turn(kind));
}

function turn(kind: Bench): void {
  batch(() => {
    screen.value = { kind };
    notice.value = null;
  });
  void guarded(theStore().setSetting('bench', kind));
}

async function open(id: string, kind: Bench): Promise<void> {
  await allSaved();
  await wholeLog();
  // On the bench a log may be taken up from where it was kept folded.
  const atHand = kind === 'weave' ? foldAtHand(id) : NOTHING;
  if (!(await bringUp(kind, await askFor(theStore(), id, atHand)))) return;
  await remember('bench', kind);
  await remember('weaving', id);
}

/** Answers whether the warp is there. */
async function bringUp(kind: Bench, { id, warps, stored }: Asked): Promise<boolean> {
  const warp = warps.find((it) => it.id === id);
  const loaded = warp === undefined ? null : await sessionFrom(theStore(), warp, stored);
  if (loaded === null) return false;
  // The first tap on a warp is nobody's bounce.
  lastThrow = Number.NEGATIVE_INFINITY;
  batch(() => {
    session.value = loaded;
    screen.value = { kind };
    notice.value = null;
  });
  return true;
}

/** A checked plan becomes a new warp with an id and a log of its own. */
export async function addWarp(plan: Plan, demo: boolean): Promise<WarpRecord> {
  const warp: WarpRecord = { id: newId(), name: plan.name, demo, madeAt: now(), wovenAt: null };
  await theStore().addWarp(warp, plan);
  return warp;
}

export async function removeWarp(id: string): Promise<void> {
  await allSaved();
  saver.forget(id);
  const { forgetPhotosOf } = await import('./photos.ts');
  await guarded(forgetPhotosOf(id));
  await guarded(theStore().removeWarp(id));
  await keepFold(undefined).catch(() => undefined);
  await showWarps();
}

/** One thing that happened at the loom: painted at once, saved right after. */
export function happen(happening: Happening): void {
  withPen(() => inTurn(() => happenHere(happening)));
}

function happenHere(happening: Happening): void {
  const at = session.peek();
  if (at === null) return;
  const event: LogEvent = {
    id: newId(),
    warp: at.warp.id,
    after: at.log[at.log.length - 1]?.id ?? null,
    at: now(),
    ...happening,
  };
  at.log.push(event);
  const { kept, progress } = needsRefold(event)
    ? foldedOn(at.base, at.log, at.kept)
    : { kept: at.kept, progress: happened(at.progress, event) };
  batch(() => {
    session.value = { ...at, plan: progress.course.plan, kept, progress };
    notice.value = null;
  });
  saver.save(event);
}

const saver = createSaver((events) => guarded(theStore().appendAll(events)));
/** Events painted and not saved yet: those of one warp, and a wait for all of them. */
export const { unsavedOf, settled: allSaved } = saver;

let lastThrow = Number.NEGATIVE_INFINITY;

/** One pick, unless it is the bounce of the tap before. */
export function throwPick(timeStamp: number): void {
  withPen(() => inTurn(() => throwHere(timeStamp)));
}

/** By eye: so many picks of a yarn with one tap, unless it is the bounce of the tap before. */
export function throwOf(yarn: Letter, picks: number, timeStamp: number): void {
  withPen(() => inTurn(() => throwHere(timeStamp, yarn, picks)));
}

function throwHere(timeStamp: number, taken?: Letter, picks = 1): void {
  const at = session.peek();
  if (at === null || at.progress.pick >= at.progress.course.picks) return;
  if (timeStamp - lastThrow < settings.peek().bounceMs) return;
  lastThrow = timeStamp;
  const { course, pick } = at.progress;
  // By eye the yarn in hand goes on until another is taken.
  const yarn = taken ?? at.plan.yarns[yarnAt(course, pick)]?.letter;
  const isByEye = yarn !== undefined && freeAtFell(course, pick) !== null;
  happen(isByEye ? { kind: 'thrownOf', yarn, picks } : { kind: 'thrown', picks: 1 });
}

export function undo(): void {
  withPen(() => whenWhole(undoHere));
}

function undoHere(): void {
  const target = undoTarget(session.peek()?.log ?? [], isOfThisScreen);
  if (target === null) {
    notice.value = say.nothingToUndo;
    return;
  }
  lastThrow = Number.NEGATIVE_INFINITY;
  happen({ kind: 'undone', event: target });
}

export function redo(): void {
  withPen(() => whenWhole(redoHere));
}

function redoHere(): void {
  const target = redoTarget(session.peek()?.log ?? [], isOfThisScreen);
  if (target !== null) happen({ kind: 'redone', event: target });
}

/**
 * Awaits a store operation and answers whether it was kept; what goes wrong shows as the red bar
 * and never as a lost promise.
 */
export async function guarded(work: Promise<unknown>): Promise<boolean> {
  try {
    await work;
    trouble.value = standing;
    return true;
  } catch (error) {
    trouble.value = error instanceof StoreError ? error.trouble : 'unknown';
    return false;
  }
}
