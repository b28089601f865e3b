/**
 * The file of the rescue page, read back as far as it can be: raw records of a database that may be
 * damaged. What cannot be read is left out and told; it stays in the file.
 */
import { fail, ok, type Result } from '../../measure/result.ts';
import { shown } from '../../plan/checkPlan.ts';
import type { WarpContents } from '../contents.ts';
import { BACKUP_LIMITS, type Backup } from './backupFile.ts';
import {
  type Decode,
  decodePlanRow,
  decodeRecord,
  decodeRow,
  decodeSetting,
  decodeWarp,
  eventsOf,
  keyOfRecord,
  numberOf,
} from './decodeBackup.ts';
import { hugeNumberIn } from './hugeNumber.ts';
import type { BackupProblem } from './problems.ts';
import { parsedWithin, tooHuge } from './readBackup.ts';

export const RESCUE_FORMAT = 'fellmark-rescue';

export interface Rescued {
  readonly backup: Backup;
  /** What was left out, each with the room and the place it has there. */
  readonly left: readonly BackupProblem[];
}

/** Deeper than any record of ours, and still read: one bad record must not hide the others. */
const NESTING = 5_000;

/** Never throws. Fails only when it is no file of the rescue page, or holds no database of ours. */
export function readRescue(text: string): Result<Rescued, readonly BackupProblem[]> {
  const parsed = parsedWithin(text, NESTING);
  if (!parsed.ok) return fail([parsed.problem]);
  const file = membersOf(parsed.value);
  if (file.format !== RESCUE_FORMAT)
    return fail([
      {
        path: 'format',
        code: 'wrong-format',
        right: RESCUE_FORMAT,
        got: shown(file.format) ?? 'nothing',
      },
    ]);
  const database = listIn(file.databases)
    .map(membersOf)
    .find(({ name }) => name === 'fellmark');
  const rooms = listIn(database?.rooms).map(membersOf);
  if (rooms.length === 0) return fail([{ path: 'databases', code: 'missing' }]);
  return ok(rescuedFrom(roomsBy(rooms), textIn(file.madeAt)));
}

type Members = { readonly [name: string]: unknown };
type Rooms = { readonly [room in RoomName]: readonly Members[] };
type RoomName = 'warps' | 'revisions' | 'events' | 'records' | 'settings';

function roomsBy(rooms: readonly Members[]): Rooms {
  const of = (room: RoomName) =>
    listIn(rooms.find(({ name }) => name === room)?.records).map((it) =>
      membersOf(membersOf(it).value),
    );
  return {
    warps: of('warps'),
    revisions: of('revisions'),
    events: of('events'),
    records: of('records'),
    settings: of('settings'),
  };
}

function rescuedFrom(rooms: Rooms, madeAt: string): Rescued {
  const left: BackupProblem[] = [];
  const plans = groupedBy(rooms.revisions, ({ warp }) => textIn(warp));
  const events = groupedBy(rooms.events, ({ warp }) => textIn(warp));
  const heads = readable(rooms.warps, 'warps', left, decodeWarpRow, ({ warp }) => warp.id);
  const known = new Set(heads.map(({ warp }) => warp.id));
  // The record of a warp may be damaged while its plans are whole.
  const lost = [...plans.keys()].filter((id) => id !== '' && !known.has(id)).map(headFor);
  const warps = [...heads, ...lost].map(({ warp }): WarpContents => {
    const rows = readable(
      events.get(warp.id) ?? [],
      `events of ${warp.id}`,
      left,
      decodeEventRow,
      (row) => row.id,
    );
    return {
      warp,
      plans: readable(
        plans.get(warp.id) ?? [],
        `revisions of ${warp.id}`,
        left,
        decodeRevision,
        numberOf,
      ),
      log: eventsOf(rows, warp.id),
    };
  });
  return {
    backup: {
      madeAt: Number.isNaN(Date.parse(madeAt)) ? EPOCH : madeAt,
      app: 'rescue',
      warps,
      records: readable(rooms.records, 'records', left, decodeRecord, keyOfRecord),
      settings: readable(rooms.settings, 'settings', left, decodeSetting, ({ name }) => name),
    },
    left,
  };
}

const EPOCH = '1970-01-01T00:00:00.000Z';

function headFor(id: string): WarpContents {
  const warp = { id, name: 'Rescued', demo: false, madeAt: EPOCH, wovenAt: null };
  return { warp, plans: [], log: [] };
}

const decodeWarpRow: Decode<WarpContents> = (input, path, problems) =>
  decodeWarp({ ...membersOf(input), plans: [], log: [] }, path, problems);

const decodeRevision: typeof decodePlanRow = (input, path, problems) => {
  const { warp, ...row } = membersOf(input);
  return decodePlanRow(row, path, problems);
};

const decodeEventRow: typeof decodeRow = (input, path, problems) => {
  const { warp, seq, ...row } = membersOf(input);
  return decodeRow(row, path, problems);
};

/** Those that can be read, each once; the first fault of each of the others is noted. */
function readable<T>(
  items: readonly Members[],
  room: string,
  left: BackupProblem[],
  decode: Decode<T>,
  keyOf: (item: T) => string,
): readonly T[] {
  const keys = new Set<string>();
  return items.flatMap((item, n) => {
    const path = `${room}[${n}]`;
    const faults: BackupProblem[] = [];
    const unfit = unfitIn(item, path);
    if (unfit !== null) {
      left.push(unfit);
      return [];
    }
    const read = decode(item, path, faults);
    const first = faults[0];
    if (first !== undefined) left.push(first);
    if (read === null || keys.has(keyOf(read))) return [];
    keys.add(keyOf(read));
    return [read];
  });
}

/** In a backup a record has a few lists and objects around it. */
const DEEPEST_RECORD = BACKUP_LIMITS.nesting - 10;

/** What no backup could hold afterwards is not taken in either. */
function unfitIn(item: Members, path: string): BackupProblem | null {
  if (isDeeperThan(item, DEEPEST_RECORD))
    return { path, code: 'too-deep', right: String(DEEPEST_RECORD) };
  const huge = hugeNumberIn(item, path);
  return huge === null ? null : tooHuge(huge);
}

function isDeeperThan(value: unknown, most: number): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return most === 0 || Object.values(value).some((it) => isDeeperThan(it, most - 1));
}

function groupedBy(
  items: readonly Members[],
  keyOf: (item: Members) => string,
): ReadonlyMap<string, readonly Members[]> {
  const groups = new Map<string, Members[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

function membersOf(value: unknown): Members {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Members)
    : {};
}

function listIn(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

function textIn(value: unknown): string {
  return typeof value === 'string' ? value : '';
}
