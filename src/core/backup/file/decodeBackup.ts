/** What lies in a backup file, item by item: each is of its shape, or its place and fault are told. */
import * as v from 'valibot';
import type { LogEvent } from '../../bench/events.ts';
import { fail, ok, type Result } from '../../measure/result.ts';
import { MOST_PROBLEMS, problemOf, shown } from '../../plan/checkPlan.ts';
import { LIMITS } from '../../plan/limits.ts';
import type { PlanCopy, RecordCopy, SettingCopy, WarpContents } from '../contents.ts';
import type { Backup } from './backupFile.ts';
import { type EventRow, id, rowOf, timestamp } from './eventShape.ts';
import type { BackupProblem } from './problems.ts';

const title = v.pipe(v.string(), v.maxLength(LIMITS.notes));

const head = v.looseObject({
  madeAt: timestamp,
  app: v.pipe(v.string(), v.maxLength(LIMITS.name)),
  warps: v.array(v.unknown()),
  records: v.array(v.unknown()),
  settings: v.array(v.unknown()),
});

const branchOf = v.strictObject({
  warp: id,
  from: id,
  settled: v.exactOptional(v.literal(true)),
});

const warpRow = v.strictObject({
  id,
  name: title,
  demo: v.boolean(),
  madeAt: timestamp,
  wovenAt: v.nullable(timestamp),
  branchOf: v.exactOptional(branchOf),
  plansUnread: v.exactOptional(v.literal(true)),
  plans: v.array(v.unknown()),
  log: v.array(v.unknown()),
});

const planRow = v.strictObject({
  revision: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(1_000_000)),
  madeAt: timestamp,
  plan: v.exactOptional(v.unknown()),
});

const record = v.strictObject({
  // A kind of a later version is kept unread, so any name will do.
  kind: id,
  id,
  changedAt: timestamp,
  body: v.exactOptional(v.unknown()),
});

const setting = v.strictObject({ name: id, value: v.exactOptional(v.unknown()) });

/** Reads the body of a backup file. Plans, bodies and settings are carried along as they are. */
export function decodeBackup(body: unknown): Result<Backup, readonly BackupProblem[]> {
  const problems: BackupProblem[] = [];
  const found = decoded(head, body, '', problems);
  if (found === null) return fail(problems);
  const warps = listOf(found.warps, 'warps', problems, decodeWarp, ({ warp }) => warp.id);
  const records = listOf(found.records, 'records', problems, decodeRecord, keyOfRecord);
  const settings = listOf(found.settings, 'settings', problems, decodeSetting, ({ name }) => name);
  if (problems.length > 0) return fail(problems.slice(0, MOST_PROBLEMS));
  return ok({ madeAt: found.madeAt, app: found.app, warps, records, settings });
}

/** Names a record among all: an id is one of its kind only. */
export const keyOfRecord = (it: RecordCopy) => `${it.kind} ${it.id}`;

export type Decode<T> = (input: unknown, path: string, problems: BackupProblem[]) => T | null;

/** Every item read; an item without fault whose key has been there before is one. */
export function listOf<T>(
  items: readonly unknown[],
  path: string,
  problems: BackupProblem[],
  decode: Decode<T>,
  keyOf: (item: T) => string,
): readonly T[] {
  const keys = new Set<string>();
  const found: T[] = [];
  for (const [index, item] of items.entries()) {
    if (problems.length >= MOST_PROBLEMS) break;
    const read = decode(item, `${path}[${index}]`, problems);
    if (read === null) continue;
    const key = keyOf(read);
    if (keys.has(key))
      problems.push({ path: `${path}[${index}]`, code: 'same-id', got: key.slice(0, 60) });
    keys.add(key);
    found.push(read);
  }
  return found;
}

/** A warp with those of its plans and events that are of their shape; null when the warp itself is not. */
export const decodeWarp: Decode<WarpContents> = (input, path, problems) => {
  const row = decoded(warpRow, input, path, problems);
  if (row === null) return null;
  const { plans, log, ...warp } = row;
  const numbered = listOf(plans, `${path}.plans`, problems, decodePlanRow, numberOf);
  return { warp, plans: numbered, log: decodeLog(log, warp.id, `${path}.log`, problems) };
};

/** Names a plan among those of its warp. */
export const numberOf = ({ revision }: PlanCopy) => String(revision);

/** A plan with its number and time. The plan itself may be anything: `checkPlan` is asked when it is used. */
export const decodePlanRow: Decode<PlanCopy> = (input, path, problems) => {
  const read = decoded(planRow, input, path, problems);
  return read === null ? null : { ...read, plan: read.plan };
};

function decodeLog(
  rows: readonly unknown[],
  warp: string,
  path: string,
  problems: BackupProblem[],
): readonly LogEvent[] {
  const read = listOf(rows, path, problems, decodeRow, (row) => row.id);
  return eventsOf(read, warp);
}

/** The events of a log from its rows, each after the one before it unless it says otherwise. */
export function eventsOf(rows: readonly EventRow[], warp: string): readonly LogEvent[] {
  return rows.map(({ after, ...row }, n): LogEvent => {
    const before = after === undefined ? (rows[n - 1]?.id ?? null) : after;
    return { ...row, warp, after: before };
  });
}

/** An event, by the shape its kind has; a kind that is missing or not known is a fault. */
export const decodeRow: Decode<EventRow> = (input, path, problems) => {
  const kind: unknown =
    typeof input === 'object' && input !== null && 'kind' in input ? input.kind : undefined;
  const shape = rowOf(kind);
  if (shape !== undefined) return decoded(shape, input, path, problems);
  const code = typeof kind === 'string' ? 'unknown-event' : 'missing';
  problems.push({ path: `${path}.kind`, code, got: shown(kind) ?? 'nothing' });
  return null;
};

/** A record of whatever kind, its body not looked at. */
export const decodeRecord: Decode<RecordCopy> = (input, path, problems) => {
  const read = decoded(record, input, path, problems);
  return read === null ? null : { ...read, body: read.body };
};

/** A setting of whatever name, its value not looked at. */
export const decodeSetting: Decode<SettingCopy> = (input, path, problems) => {
  const read = decoded(setting, input, path, problems);
  return read === null ? null : { name: read.name, value: read.value };
};

function decoded<T>(
  shape: v.GenericSchema<unknown, T>,
  input: unknown,
  path: string,
  problems: BackupProblem[],
): T | null {
  const parsed = v.safeParse(shape, input, { abortPipeEarly: true });
  if (parsed.success) return parsed.output;
  problems.push(...parsed.issues.slice(0, MOST_PROBLEMS).map((issue) => problemAt(issue, path)));
  return null;
}

function problemAt(issue: v.BaseIssue<unknown>, path: string): BackupProblem {
  const problem = problemOf(issue);
  const joint = path === '' || problem.path === '' || problem.path.startsWith('[') ? '' : '.';
  const code = issue.type === 'iso_timestamp' ? 'bad-time' : problem.code;
  return { ...problem, path: `${path}${joint}${problem.path}`, code };
}
