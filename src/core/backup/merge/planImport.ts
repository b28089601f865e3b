/**
 * What bringing one state into another would do. It adds and never takes away.
 *
 * Copies of one warp are a *family*. A copy that only goes on where another ends continues it; two
 * that were both woven on are branches, and the one that comes in becomes a warp of its own with the
 * common past in it. Their picks are never added up.
 */

import { checkPlan } from '../../plan/checkPlan.ts';
import { LIMITS } from '../../plan/limits.ts';
import type {
  Contents,
  PlanCopy,
  RecordCopy,
  SettingCopy,
  WarpContents,
  WarpHead,
} from '../contents.ts';
import { checksumOf } from '../file/checksum.ts';
import { compareLogs, type LogRelation } from './compareLogs.ts';
import { familyOf } from './families.ts';
import { isSameData } from './sameData.ts';

export interface ImportPlan {
  /** One for each warp that comes in, in their order. */
  readonly warps: readonly WarpOutcome[];
  readonly records: readonly RecordOutcome[];
  /** What the store is to add; nothing of it takes anything away. */
  readonly additions: Contents;
}

/**
 * - `new`: no copy of it is here.
 * - `continued`: a copy here goes on with what comes in.
 * - `branch`: both were woven on; it becomes a warp of its own beside the one here.
 * - `same`, `older`: all of it is here already.
 */
export type WarpOutcome =
  | { readonly kind: 'new'; readonly there: WarpContents; readonly warp: WarpHead }
  | {
      readonly kind: 'continued' | 'branch';
      readonly there: WarpContents;
      readonly here: WarpContents;
      readonly warp: WarpHead;
    }
  | { readonly kind: 'same' | 'older'; readonly there: WarpContents; readonly here: WarpContents };

/** `newer` takes the place of the one here; `older` leaves it. */
export interface RecordOutcome {
  readonly kind: 'new' | 'newer' | 'same' | 'older';
  readonly record: RecordCopy;
}

/**
 * What becomes of each warp and record of `there` beside what is `here`, and what the store is to add
 * for it. Nothing is refused: a warp whose plans do not check is marked and taken.
 */
export function planImport(here: Contents, there: Contents): ImportPlan {
  const ground: Ground = {
    here: new Map(here.warps.map((it) => [it.warp.id, it])),
    ids: new Set(here.warps.map((it) => it.warp.id)),
  };
  const outcomes = there.warps.map((it) => placed(ground, withoutMark(it)));
  const records = recordOutcomes(here.records, there.records);
  const taken = records.filter(({ kind }) => kind === 'new' || kind === 'newer');
  return {
    warps: outcomes.map(({ outcome }) => outcome),
    records,
    additions: {
      warps: outcomes.flatMap(({ addition }) => addition),
      records: taken.map(({ record }) => record),
      settings: newSettings(here.settings, there.settings),
    },
  };
}

/** Another version may have read what this one cannot, and the other way round. */
function withoutMark({ warp: { plansUnread, ...warp }, ...rest }: WarpContents): WarpContents {
  return { warp, ...rest };
}

/** What those that come in are measured against: never against each other, for a state is whole. */
interface Ground {
  readonly here: Map<string, WarpContents>;
  /** Those of the warps here, and of the ones that came in before. */
  readonly ids: Set<string>;
}

/** Below what a file may call a warp, or this device could not read its own backup. */
const LONGEST_ID = LIMITS.name - 20;

interface Placed {
  readonly outcome: WarpOutcome;
  readonly addition: readonly WarpContents[];
}

/** Finds the place of one warp among those here. */
function placed(ground: Ground, there: WarpContents): Placed {
  const match = bestMatch(ground, there);
  if (match === null) return newWarp(ground, there);
  const { here, relation } = match;
  switch (relation.kind) {
    case 'same':
      return { outcome: { kind: 'same', there, here }, addition: [] };
    case 'ahead':
      return { outcome: { kind: 'older', there, here }, addition: [] };
    case 'behind':
      return continued(ground, here, there, relation);
    case 'apart':
      return branched(ground, here, there, relation.from);
  }
}

interface Match {
  readonly here: WarpContents;
  readonly relation: LogRelation;
}

/** The copy here that has most to do with the one coming in; null when there is none. */
function bestMatch(ground: Ground, there: WarpContents): Match | null {
  const family = familyOf(there.warp);
  const matches = [...ground.here.values()]
    .filter(({ warp }) => familyOf(warp) === family)
    .map((here) => ({ here, relation: relationOf(here, there) }));
  return matches.sort((a, b) => rankOf(b, there) - rankOf(a, there))[0] ?? null;
}

const RANKS = { same: 3, ahead: 2, behind: 1, apart: 0 } as const;

/** First how they lie to each other, then how much they have in common, then whether they share an id. */
function rankOf({ here, relation }: Match, there: WarpContents): number {
  const common = relation.kind === 'apart' ? relation.common : here.log.length;
  const sameId = here.warp.id === there.warp.id ? 0.5 : 0;
  return RANKS[relation.kind] * 1e9 + common + sameId;
}

/** Log and plans together: a plan changed on one side and picks woven on the other lie apart. */
function relationOf(here: WarpContents, there: WarpContents): LogRelation {
  const logs = compareLogs(here.log, there.log);
  const plans = comparePlans(here.plans, there.plans);
  if (logs.kind === 'apart' || plans === 'same') return logs;
  if (logs.kind === plans) return logs;
  if (logs.kind === 'same' && plans === 'ahead') return { kind: 'ahead' };
  if (logs.kind === 'same' && plans === 'behind') return { kind: 'behind', more: [] };
  const more = logs.kind === 'behind' ? logs.more[0] : undefined;
  const common = logs.kind === 'behind' ? here.log.length : there.log.length;
  return { kind: 'apart', common, from: more?.id ?? planMark(there.plans) };
}

function comparePlans(here: readonly PlanCopy[], there: readonly PlanCopy[]): LogRelation['kind'] {
  const ours = new Map(here.map((it) => [it.revision, it.plan]));
  const isKnown = ({ revision }: PlanCopy) => ours.has(revision);
  const known = there.filter(isKnown);
  if (!known.every((it) => isSameData(it.plan, ours.get(it.revision)))) return 'apart';
  const [more, missing] = [there.length - known.length, here.length - known.length];
  if (more === 0) return missing === 0 ? 'same' : 'ahead';
  return missing === 0 ? 'behind' : 'apart';
}

/** Stands for the first event where it is the plans that part. */
function planMark(plans: readonly PlanCopy[]): string {
  return `plan-${checksumOf(JSON.stringify(plans.at(-1)?.plan ?? null))}`;
}

function newWarp(ground: Ground, there: WarpContents): Placed {
  const { id, demo, branchOf } = there.warp;
  // The id of another family: a demo beside a warp of the weaver's own, or a file made by hand.
  const warp = ground.ids.has(id)
    ? {
        ...there.warp,
        id: freeId(ground, `${id}-${demo ? 'demo' : 'own'}`),
        branchOf: { warp: branchOf?.warp ?? id, from: there.log[0]?.id ?? 'start' },
      }
    : there.warp;
  ground.ids.add(warp.id);
  return { outcome: { kind: 'new', there, warp }, addition: [under(warp, there)] };
}

function continued(
  ground: Ground,
  here: WarpContents,
  there: WarpContents,
  { more }: Extract<LogRelation, { kind: 'behind' }>,
): Placed {
  const warp = { ...here.warp, wovenAt: later(here.warp.wovenAt, there.warp.wovenAt) };
  const numbers = new Set(here.plans.map(({ revision }) => revision));
  const plans = there.plans.filter(({ revision }) => !numbers.has(revision));
  const addition = under(warp, { ...there, plans, log: more });
  const whole = { warp, plans: [...here.plans, ...plans], log: [...here.log, ...addition.log] };
  ground.here.set(warp.id, whole);
  return { outcome: { kind: 'continued', there, here, warp }, addition: [addition] };
}

/**
 * The branch keeps its id where it is free. Otherwise the id is made of the warp and the event where
 * the two part, so that the same branch brought in again, from wherever, is known. Whatever the weaver
 * settled elsewhere, here are two ways to look at.
 */
function branched(ground: Ground, here: WarpContents, there: WarpContents, parts: string): Placed {
  const root = here.warp.branchOf?.warp ?? here.warp.id;
  const isFree = !ground.ids.has(there.warp.id);
  const id = isFree ? there.warp.id : freeId(ground, `${root}-${parts}`);
  const from = isFree ? (there.warp.branchOf?.from ?? parts) : parts;
  const warp = { ...there.warp, id, branchOf: { warp: root, from } };
  ground.ids.add(id);
  return { outcome: { kind: 'branch', there, here, warp }, addition: [under(warp, there)] };
}

function freeId({ ids }: Ground, wanted: string): string {
  // What a file made by hand calls its warps may be as long as an id can be.
  const short = wanted.length < LONGEST_ID ? wanted : `branch-${checksumOf(wanted)}`;
  for (let n = 1; ; n++) {
    const id = n === 1 ? short : `${short}-${n}`;
    if (!ids.has(id)) return id;
  }
}

/** A plan that does not check is kept, and the warp says so: nobody takes it for one of the app's own. */
function under(head: WarpHead, { plans, log }: Pick<WarpContents, 'plans' | 'log'>): WarpContents {
  const isUnread = !plans.every(({ plan }) => checkPlan(plan).ok);
  const warp: WarpHead = isUnread ? { ...head, plansUnread: true } : head;
  return { warp, plans, log: log.map((event) => ({ ...event, warp: warp.id })) };
}

function later(a: string | null, b: string | null): string | null {
  if (a === null || b === null) return a ?? b;
  return timeOf(b) > timeOf(a) ? b : a;
}

const timeOf = (at: string) => Date.parse(at);

function recordOutcomes(
  here: readonly RecordCopy[],
  there: readonly RecordCopy[],
): readonly RecordOutcome[] {
  const ours = new Map(here.map((it) => [`${it.kind} ${it.id}`, it]));
  return there.map((record) => ({
    kind: ageOf(ours.get(`${record.kind} ${record.id}`), record),
    record,
  }));
}

function ageOf(ours: RecordCopy | undefined, record: RecordCopy): RecordOutcome['kind'] {
  if (ours === undefined) return 'new';
  if (isSameData(ours, record)) return 'same';
  const lead = timeOf(record.changedAt) - timeOf(ours.changedAt);
  // Changed in the same millisecond on two devices: whichever, but the same one on both.
  const wins = lead === 0 ? JSON.stringify(record) > JSON.stringify(ours) : lead > 0;
  return wins ? 'newer' : 'older';
}

/** Settings belong to the device: one is taken only where this one has none. */
function newSettings(
  here: readonly SettingCopy[],
  there: readonly SettingCopy[],
): readonly SettingCopy[] {
  const ours = new Set(here.map(({ name }) => name));
  return there.filter(({ name }) => !ours.has(name));
}
