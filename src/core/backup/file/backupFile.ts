/**
 * The backup file: one readable JSON text with everything in it, and enough about itself that a
 * file cut short or changed on its way is an error and never a smaller backup.
 */
import type { LogEvent } from '../../bench/events.ts';
import type { Contents, PlanCopy, RecordCopy, SettingCopy, WarpHead } from '../contents.ts';
import { checksumOf } from './checksum.ts';
import type { EventRow } from './eventShape.ts';

export const BACKUP_FORMAT = 'fellmark-backup';
export const BACKUP_VERSION = 1;

/** Beyond these a file is a mistake or an attack: fifty years of weaving stay well below. */
export const BACKUP_LIMITS = {
  /** Characters. */
  text: 200_000_000,
  nesting: 100,
  /** Lists and objects, and commas, of the whole file. */
  brackets: 5_000_000,
  commas: 40_000_000,
} as const;

export interface Backup extends Contents {
  /** ISO 8601, UTC. */
  readonly madeAt: string;
  /** Version of the app that wrote it. */
  readonly app: string;
}

/** How much a file says it holds. */
export interface Holds {
  readonly warps: number;
  readonly plans: number;
  readonly events: number;
  readonly records: number;
  readonly settings: number;
}

/** The file as it lies in JSON, without its checksum. */
export interface FileBody {
  readonly format: typeof BACKUP_FORMAT;
  readonly version: number;
  readonly madeAt: string;
  readonly app: string;
  readonly holds: Holds;
  readonly warps: readonly WarpRow[];
  readonly records: readonly RecordCopy[];
  readonly settings: readonly SettingCopy[];
}

export interface WarpRow extends WarpHead {
  readonly plans: readonly PlanCopy[];
  readonly log: readonly EventRow[];
}

/** How many there are of each, over all warps: what a file says of itself and its reader counts again. */
export function holdsOf({ warps, records, settings }: Contents): Holds {
  return {
    warps: warps.length,
    plans: warps.reduce((sum, { plans }) => sum + plans.length, 0),
    events: warps.reduce((sum, { log }) => sum + log.length, 0),
    records: records.length,
    settings: settings.length,
  };
}

/** Over all of the file but the checksum itself, whatever its white space. */
export function checksumOfBody(body: object): string {
  return checksumOf(JSON.stringify(body));
}

/** The text of a backup file. Everything given is written, readable by this version or not. */
export function writeBackup(backup: Backup): string {
  const body: FileBody = {
    format: BACKUP_FORMAT,
    version: BACKUP_VERSION,
    madeAt: backup.madeAt,
    app: backup.app,
    holds: holdsOf(backup),
    warps: backup.warps.map(({ warp, plans, log }) => ({ ...warp, plans, log: rowsOf(log) })),
    records: backup.records,
    settings: backup.settings,
  };
  const { warps, records, settings, ...head } = body;
  return [
    `{${membersOf(head)},`,
    `"checksum": "${checksumOfBody(body)}",`,
    `"warps": ${linesOf(warps.map(textOfWarp))},`,
    `"records": ${linesOf(records.map(textOf))},`,
    `"settings": ${linesOf(settings.map(textOf))}}`,
    '',
  ].join('\n');
}

/** A log is a chain but for mishaps, so what comes before an event is said only where it is not. */
function rowsOf(log: readonly LogEvent[]): readonly EventRow[] {
  return log.map(({ warp, after, ...row }, n) =>
    after === (log[n - 1]?.id ?? null) ? row : { ...row, after },
  );
}

function textOfWarp({ plans, log, ...head }: WarpRow): string {
  return `{${membersOf(head)},
"plans": ${linesOf(plans.map((plan) => JSON.stringify(plan, null, 1)))},
"log": ${linesOf(log.map(textOf))}}`;
}

function membersOf(value: object): string {
  return JSON.stringify(value, null, 1).slice(2, -2);
}

const textOf = (value: unknown) => JSON.stringify(value);

/** One item a line, so that a person finds a pick and a file compares line by line. */
function linesOf(items: readonly string[]): string {
  return items.length === 0 ? '[]' : `[\n${items.join(',\n')}\n]`;
}
