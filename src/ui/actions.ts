/** Intent → event → store → signal. The only place that reads the clock and makes ids. */
import { batch } from '@preact/signals';
import type { Happening, LogEvent } from '../core/bench/events.ts';
import { happened } from '../core/bench/happened.ts';
import { progressOf } from '../core/bench/progress.ts';
import { needsRefold, redoTarget, undoTarget } from '../core/bench/undo.ts';
import type { Units } from '../core/measure/length.ts';
import type { PlanResult } from '../core/plan/checkPlan.ts';
import { LIMITS } from '../core/plan/limits.ts';
import { PLAN_FORMAT, PLAN_VERSION, type Plan } from '../core/plan/plan.ts';
import { type Store, StoreError, type StoreTrouble, type WarpRecord } from '../store/store.ts';
import { say } from './messages.ts';
import {
  DEFAULT_SETTINGS,
  isOfThisScreen,
  notice,
  refusal,
  type Session,
  type Settings,
  savingSlowly,
  screen,
  session,
  settings,
  trouble,
  unsaved,
  type WarpCard,
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

/** Reads settings and puts the warp that was being woven back on the bench, without a question. */
export async function start(opened: Store): Promise<void> {
  store = opened;
  standing = trouble.peek();
  settings.value = readSettings(await opened.setting('settings'));
  const weaving = await opened.setting('weaving');
  const bench = await opened.setting('bench');
  const kind = BENCHES.find((it) => it === bench) ?? 'weave';
  if (typeof weaving === 'string') await open(weaving, kind);
  if (session.value === null) await showWarps();
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
  await saving;
  const cards = await loadCards();
  batch(() => {
    warpCards.value = cards;
    session.value = null;
    screen.value = { kind: 'warps' };
  });
  await guarded(theStore().setSetting('weaving', null));
}

export function showYarns(): void {
  batch(() => {
    notice.value = null;
    screen.value = { kind: 'yarns' };
  });
}

async function loadCards(): Promise<readonly WarpCard[]> {
  const warps = await theStore().warps();
  return Promise.all(
    warps.map(async (warp) => {
      const loaded = await load(warp);
      return { warp, progress: loaded === null ? null : loaded.progress };
    }),
  );
}

/** A stored warp with its log folded; null when its plan can no longer be read. */
export async function load(warp: WarpRecord): Promise<Session | null> {
  const revisions = await theStore().revisionsOf(warp.id);
  const stored = revisions[revisions.length - 1]?.plan;
  const log = [...(await theStore().eventsOf(warp.id))];
  try {
    if (isOfThisVersion(stored)) return sessionOf(warp, stored, log);
  } catch {
    // Then it is no plan any more: the checker says so.
  }
  const checked = (await checker()).checkPlan(stored);
  return checked.ok ? sessionOf(warp, checked.value, log) : null;
}

function sessionOf(warp: WarpRecord, base: Plan, log: LogEvent[]): Session {
  const progress = progressOf(base, log);
  return { warp, plan: progress.course.plan, base, log, progress };
}

/** Only checked plans are ever stored, so one of this version need not be checked at every start. */
function isOfThisVersion(stored: unknown): stored is Plan {
  const { format, version } = (stored ?? {}) as { format?: unknown; version?: unknown };
  return format === PLAN_FORMAT && version === PLAN_VERSION;
}

/** Fetched when a plan comes from outside: the bench starts without it. */
const checker = () => import('../core/plan/checkPlan.ts');
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
  batch(() => {
    screen.value = { kind };
    notice.value = null;
  });
  void guarded(theStore().setSetting('bench', kind));
}

async function open(id: string, kind: Bench): Promise<void> {
  await saving;
  const warp = (await theStore().warps()).find((it) => it.id === id);
  const loaded = warp === undefined ? null : await load(warp);
  if (loaded === null) return;
  // The first tap on a warp is nobody's bounce.
  lastThrow = Number.NEGATIVE_INFINITY;
  batch(() => {
    session.value = loaded;
    screen.value = { kind };
    notice.value = null;
  });
  await guarded(theStore().setSetting('bench', kind));
  await guarded(theStore().setSetting('weaving', id));
}

/** A checked plan becomes a new warp with an id and a log of its own. */
export async function addWarp(plan: Plan, demo: boolean): Promise<WarpRecord> {
  const warp: WarpRecord = { id: newId(), name: plan.name, demo, madeAt: now(), wovenAt: null };
  await theStore().addWarp(warp, plan);
  return warp;
}

export async function openDemo(plan: unknown): Promise<void> {
  const checked = (await checker()).checkPlan(plan);
  if (!checked.ok)
    throw new Error(`openDemo: the demo is not a plan: ${JSON.stringify(checked.problem)}`);
  await guarded(addWarp(checked.value, true).then((warp) => weave(warp.id)));
}

/** Opens a plan file: saved as a new warp, or refused with all its problems and nothing stored. */
export async function openPlanFile(file: File): Promise<void> {
  refusal.value = null;
  const read =
    file.size > LIMITS.fileBytes ? tooLarge() : (await checker()).readPlanText(await file.text());
  if (!read.ok) {
    refusal.value = { fileName: file.name, problems: read.problem };
    return;
  }
  const kept = await guarded(addWarp(read.value, false));
  await showWarps();
  if (kept) notice.value = say.opened(read.value.name);
}

function tooLarge(): PlanResult {
  return { ok: false, problem: [{ path: '', code: 'too-large', right: '2 MB' }] };
}

export async function removeWarp(id: string): Promise<void> {
  await saving;
  const others = waiting.filter((event) => event.warp !== id);
  waiting.splice(0, waiting.length, ...others);
  unsaved.value = waiting.length;
  const { forgetPhotosOf } = await import('./photos.ts');
  await guarded(forgetPhotosOf(id));
  await guarded(theStore().removeWarp(id));
  await showWarps();
}

/** One thing that happened at the loom: painted at once, saved right after. */
export function happen(happening: Happening): void {
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
  const progress = needsRefold(event) ? progressOf(at.base, at.log) : happened(at.progress, event);
  batch(() => {
    session.value = { ...at, plan: progress.course.plan, progress };
    notice.value = null;
  });
  save(event);
}

/** Events painted but not yet on the disk, oldest first. */
const waiting: LogEvent[] = [];
let saving: Promise<void> = Promise.resolve();

/** Longer than this an event may not wait for the disk without a word (ours). */
const SLOW_MS = 2000;

function save(event: LogEvent): void {
  waiting.push(event);
  unsaved.value = waiting.length;
  saving = saving.then(saveWaiting);
  setTimeout(() => {
    if (waiting.includes(event)) savingSlowly.value = true;
  }, SLOW_MS);
}

/** What failed stays at the head and is tried again with the next tap: the log has no holes. */
async function saveWaiting(): Promise<void> {
  for (let event = waiting[0]; event !== undefined; event = waiting[0]) {
    if (!(await guarded(theStore().append(event)))) return;
    waiting.shift();
    unsaved.value = waiting.length;
    if (waiting.length === 0) savingSlowly.value = false;
  }
}

let lastThrow = Number.NEGATIVE_INFINITY;

/** One pick, unless it is the bounce of the tap before. */
export function throwPick(timeStamp: number): void {
  const at = session.peek();
  if (at === null || at.progress.pick >= at.progress.course.picks) return;
  if (timeStamp - lastThrow < settings.peek().bounceMs) return;
  lastThrow = timeStamp;
  happen({ kind: 'thrown', picks: 1 });
}

export function undo(): void {
  const target = undoTarget(session.peek()?.log ?? [], isOfThisScreen);
  if (target === null) {
    notice.value = say.nothingToUndo;
    return;
  }
  lastThrow = Number.NEGATIVE_INFINITY;
  happen({ kind: 'undone', event: target });
}

export function redo(): void {
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
