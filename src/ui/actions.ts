/** Intent → event → store → signal. The only place that reads the clock and makes ids. */
import { batch } from '@preact/signals';
import type { Happening, LogEvent } from '../core/bench/events.ts';
import {
  happened,
  needsRefold,
  progressOf,
  redoTarget,
  undoTarget,
} from '../core/bench/progress.ts';
import { checkPlan, readPlanText } from '../core/plan/checkPlan.ts';
import type { Plan } from '../core/plan/plan.ts';
import { LIMITS } from '../core/plan/schema.ts';
import { type Store, StoreError, type WarpRecord } from '../store/store.ts';
import { say } from './messages.ts';
import {
  DEFAULT_SETTINGS,
  notice,
  refusal,
  type Session,
  type Settings,
  screen,
  session,
  settings,
  trouble,
  unsaved,
  type WarpCard,
  warpCards,
} from './state.ts';

let store: Store | null = null;

function theStore(): Store {
  if (store === null) throw new Error('actions: wanted an open store, got none');
  return store;
}

const now = () => new Date().toISOString();

/** Short ids, unique across devices: 96 random bits. */
function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return Array.from(bytes, (byte) => byte.toString(36).padStart(2, '0')).join('');
}

/** Reads settings and puts the warp that was being woven back on the bench, without a question. */
export async function start(opened: Store): Promise<void> {
  store = opened;
  settings.value = readSettings(await opened.setting('settings'));
  const weaving = await opened.setting('weaving');
  if (typeof weaving === 'string') await weave(weaving);
  if (session.value === null) await showWarps();
}

function readSettings(stored: unknown): Settings {
  const known = typeof stored === 'object' && stored !== null ? (stored as Partial<Settings>) : {};
  return { ...DEFAULT_SETTINGS, ...known };
}

export function changeSettings(change: Partial<Settings>): void {
  settings.value = { ...settings.peek(), ...change };
  void guarded(theStore().setSetting('settings', settings.peek()));
}

export async function showWarps(): Promise<void> {
  const cards = await loadCards();
  batch(() => {
    warpCards.value = cards;
    session.value = null;
    screen.value = { kind: 'warps' };
  });
  await guarded(theStore().setSetting('weaving', null));
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

async function load(warp: WarpRecord): Promise<Session | null> {
  const revisions = await theStore().revisionsOf(warp.id);
  const checked = checkPlan(revisions[revisions.length - 1]?.plan);
  if (!checked.ok) return null;
  const log = [...(await theStore().eventsOf(warp.id))];
  return { warp, plan: checked.value, log, progress: progressOf(checked.value, log) };
}

/** Puts a stored warp on the bench at its last pick. */
export async function weave(id: string): Promise<void> {
  const warp = (await theStore().warps()).find((it) => it.id === id);
  const loaded = warp === undefined ? null : await load(warp);
  if (loaded === null) return;
  batch(() => {
    session.value = loaded;
    screen.value = { kind: 'weave' };
    notice.value = null;
  });
  await guarded(theStore().setSetting('weaving', id));
}

/** A checked plan becomes a new warp with an id and a log of its own. */
async function addWarp(plan: Plan, demo: boolean): Promise<WarpRecord> {
  const warp: WarpRecord = { id: newId(), name: plan.name, demo, madeAt: now(), wovenAt: null };
  await theStore().addWarp(warp, plan);
  return warp;
}

export async function openDemo(plan: unknown): Promise<void> {
  const checked = checkPlan(plan);
  if (!checked.ok)
    throw new Error(`openDemo: the demo is not a plan: ${JSON.stringify(checked.problem)}`);
  await weave((await addWarp(checked.value, true)).id);
}

/** Opens a plan file: saved as a new warp, or refused with all its problems and nothing stored. */
export async function openPlanFile(file: File): Promise<void> {
  refusal.value = null;
  const read = file.size > LIMITS.fileBytes ? tooLarge() : readPlanText(await file.text());
  if (!read.ok) {
    refusal.value = { fileName: file.name, problems: read.problem };
    return;
  }
  await guarded(addWarp(read.value, false));
  await showWarps();
  notice.value = say.opened(read.value.name);
}

function tooLarge(): ReturnType<typeof checkPlan> {
  return { ok: false, problem: [{ path: '', code: 'too-large', right: '2 MB' }] };
}

export async function removeWarp(id: string): Promise<void> {
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
  const progress = needsRefold(event) ? progressOf(at.plan, at.log) : happened(at.progress, event);
  batch(() => {
    session.value = { ...at, progress };
    notice.value = null;
    unsaved.value += 1;
  });
  void guarded(theStore().append(event)).finally(() => {
    unsaved.value -= 1;
  });
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
  const target = session.peek() === null ? null : undoTarget(session.peek()?.log ?? []);
  if (target === null) {
    notice.value = say.nothingToUndo;
    return;
  }
  lastThrow = Number.NEGATIVE_INFINITY;
  happen({ kind: 'undone', event: target });
}

export function redo(): void {
  const target = redoTarget(session.peek()?.log ?? []);
  if (target !== null) happen({ kind: 'redone', event: target });
}

/** Awaits a store operation; what goes wrong shows as the red bar and never as a lost promise. */
async function guarded(work: Promise<unknown>): Promise<void> {
  try {
    await work;
    trouble.value = null;
  } catch (error) {
    trouble.value = error instanceof StoreError ? error.trouble : 'unknown';
  }
}
