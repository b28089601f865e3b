/** A stored warp, taken up where its log ends. What is asked of the store for it is asked together. */
import type { LogEvent } from '../core/bench/events.ts';
import { foldedOn } from '../core/bench/kept.ts';
import { PLAN_FORMAT, PLAN_VERSION, type Plan } from '../core/plan/plan.ts';
import type { Readers } from '../store/database.ts';
import type { Store, StoredRevision, WarpRecord } from '../store/store.ts';
import { type AtHand, resumed, type Tail, tailOf } from './resuming.ts';
import type { Session } from './state.ts';

/** All that is stored of a warp. */
export interface Stored {
  readonly revisions: readonly StoredRevision[];
  /** What its log may be taken up with, in the place of all of it. */
  readonly tail: Tail | null;
  /** Null where there is a tail. */
  readonly log: readonly LogEvent[] | null;
}

/** What is read before the first screen stands. */
export interface First {
  readonly settings: unknown;
  /** The warp that was being woven, and on which of its screens. */
  readonly weaving: unknown;
  readonly bench: unknown;
  /** All of the warp that is at hand folded: most often that is the one. */
  readonly asked: Asked | null;
}

/** `atHand`: a log kept folded, looked for while the store was being opened. */
export async function readFirst(read: Readers, atHand: Promise<AtHand | null>): Promise<First> {
  const asked = atHand.then((it) => (it === null ? null : askFor(read, it.fold.warp, atHand)));
  const all = [...['settings', 'weaving', 'bench'].map(read.setting), asked] as const;
  const [settings, weaving, bench] = await Promise.all(all);
  return { settings, weaving, bench, asked: await asked };
}

export interface Asked {
  readonly id: string;
  readonly warps: readonly WarpRecord[];
  readonly stored: Stored;
}

/** A warp as it is stored, asked for with all others. */
export async function askFor(
  read: Readers,
  id: string,
  atHand: Promise<AtHand | null>,
): Promise<Asked> {
  const [warps, stored] = await Promise.all([read.warps(), storedOf(read, id, atHand)]);
  return { id, warps, stored };
}

/** `atHand`: where the log may be taken up from where it was kept folded. */
async function storedOf(
  store: Readers,
  warp: string,
  atHand: Promise<AtHand | null>,
): Promise<Stored> {
  const begun = tailOf(store, warp, atHand);
  const wholeElse = begun.then((tail) => (tail === null ? store.eventsOf(warp) : null));
  const [revisions, tail, log] = await Promise.all([store.revisionsOf(warp), begun, wholeElse]);
  return { revisions, tail, log };
}

/** With its log folded; null when its plan can no longer be read. */
export async function sessionFrom(
  store: Store,
  warp: WarpRecord,
  { revisions, tail, log }: Stored,
): Promise<Session | null> {
  const plan = revisions[revisions.length - 1]?.plan;
  const isKnown = warp.plansUnread !== true && isOfThisVersion(plan);
  const soon = isKnown && tail !== null ? resumed(store, warp, plan, tail) : null;
  if (soon !== null) return soon;
  const whole = [...(log ?? (await store.eventsOf(warp.id)))];
  try {
    if (isKnown) return sessionOf(warp, plan, whole);
  } catch {
    // Then it is no plan any more: the checker says so.
  }
  const checked = (await checker()).checkPlan(plan);
  return checked.ok ? sessionOf(warp, checked.value, whole) : null;
}

/** A warp that is not for the bench: its log is read whole. */
export async function load(store: Store, warp: WarpRecord): Promise<Session | null> {
  return sessionFrom(store, warp, await storedOf(store, warp.id, NOTHING));
}

export const NOTHING = Promise.resolve(null);

/** A warp at the end of its log. */
export function sessionOf(warp: WarpRecord, base: Plan, log: LogEvent[]): Session {
  const { kept, progress } = foldedOn(base, log);
  return { warp, plan: progress.course.plan, base, log, kept, progress };
}

/** Only checked plans are ever stored, so one of this version need not be checked at every start. */
function isOfThisVersion(stored: unknown): stored is Plan {
  const { format, version } = (stored ?? {}) as { format?: unknown; version?: unknown };
  return format === PLAN_FORMAT && version === PLAN_VERSION;
}

/** Fetched when a plan comes from outside: the bench starts without it. */
export const checker = () => import('../core/plan/checkPlan.ts');
