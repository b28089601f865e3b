/** One file of the journal: a first line of fixed length, then the writes, line by line. */
import { type Entry, isSamePlace, type Ledger, type Place } from '../op.ts';
import { keptOf } from './compacted.ts';
import { encodeLine, nextStart, readLines } from './line.ts';
import { readFrom, type SyncFile, writeTo } from './syncFile.ts';

export const FORMAT = 1;
const HEAD_BYTES = 256;
/** Bytes from the end that a launch reads when all is well. */
const TAIL_BYTES = 65_536;

/** The first line. */
export interface Head extends Place {
  /** Version of this format. */
  readonly journal: number;
  /** Version of the data in it. */
  readonly data: number;
  readonly store: string;
  /** Of two files with a head the higher one counts. */
  readonly generation: number;
  /** How many lines were written at once with this head; they tell the state at its place. */
  readonly lines: number;
  /** Length of the file then. */
  readonly bytes: number;
}

/** Null when the first line is damaged, or not whole yet; a head of a newer version is one. */
export function readHead(file: SyncFile): Head | null {
  const [value] = readLines(readFrom(file, 0, HEAD_BYTES)).values;
  return isHead(value) ? value : null;
}

/** The place a journal has come to: its lines from the beginning all belong to its head's place. */
export function placeOf(head: Head | null, last: Entry | undefined): Place {
  const { n, by } = head !== null && (last?.n ?? 0) <= head.n ? head : (last ?? NOWHERE);
  return { n, by };
}

const NOWHERE: Place = { n: 0, by: '' };

/** What the end of the file says, read quickly: null when anything there is damaged. */
export function lastPlace(file: SyncFile, head: Head): Place | null {
  const size = file.getSize();
  const from = Math.max(HEAD_BYTES, size - TAIL_BYTES);
  const bytes = readFrom(file, from, size);
  const { values, clean } = readLines(bytes.subarray(from > HEAD_BYTES ? nextStart(bytes, 0) : 0));
  const last = values.at(-1);
  if (!clean) return null;
  if (last === undefined) return size === HEAD_BYTES ? head : null;
  return isEntry(last) ? placeOf(head, last) : null;
}

export interface Pages {
  /** All that can be read and counts, in the order written. */
  readonly entries: readonly Entry[];
  /** Whether nothing is damaged and no line is missing. */
  readonly isWhole: boolean;
}

/** Reads all of it; without a head, all lines that can be found. */
export function readPages(file: SyncFile, head: Head | null): Pages {
  const { values, clean } = readLines(
    readFrom(file, head === null ? 0 : HEAD_BYTES, file.getSize()),
  );
  const all = values.filter(isEntry);
  const entries = keptOf(all);
  return { entries, isWhole: clean && head !== null && isUnbroken(head, all, entries) };
}

/** Every line of the beginning is there, and every later one follows the one before it. */
function isUnbroken(head: Head, all: readonly Entry[], kept: readonly Entry[]): boolean {
  if (all.filter(({ n }) => n <= head.n).length !== head.lines) return false;
  const later = kept.filter(({ n }) => n > head.n);
  return later.every(({ after }, i) => after === (later[i - 1]?.n ?? head.n));
}

/** Writes the body first, then the head: until that is whole, the file is none. */
export function writePages(
  file: SyncFile,
  head: Omit<Head, 'lines' | 'bytes'>,
  entries: readonly Entry[],
): Head {
  file.truncate(0);
  let bytes = HEAD_BYTES;
  for (const entry of entries) {
    const line = encodeLine(entry);
    writeTo(file, line, bytes);
    bytes += line.length;
  }
  file.flush();
  const whole = { ...head, lines: entries.length, bytes };
  writeTo(file, encodeLine(whole, HEAD_BYTES), 0);
  file.flush();
  return whole;
}

/** Whether a database at this place and a journal at that one hold the same. */
export function agree(head: Head, last: Place | null, ledger: Ledger | null): boolean {
  return ledger !== null && head.store === ledger.store && isSamePlace(last, ledger);
}

function isHead(value: unknown): value is Head {
  return typeof value === 'object' && value !== null && 'journal' in value && 'store' in value;
}

/** Its checksum holds, so we wrote it: only whether it is an entry is asked. */
function isEntry(value: unknown): value is Entry {
  return typeof value === 'object' && value !== null && 'op' in value && 'after' in value;
}
