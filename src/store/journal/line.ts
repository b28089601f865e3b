/**
 * The lines of the journal: length of the JSON in bytes, CRC-32 of it, JSON, line feed. A person can
 * read the file as it is. JSON text never holds a line feed, so that whatever happened to one line,
 * the next one can be found.
 */
import { crc32 } from '../../core/travel/crc32.ts';

const encoder = new TextEncoder();
const decoder = new TextDecoder();
const LINE_FEED = 10;
const SPACE = 32;
const LENGTH_DIGITS = 8;
const CRC_DIGITS = 8;
/** Bytes before the JSON, the two blanks with them. */
const HEAD = LENGTH_DIGITS + 1 + CRC_DIGITS + 1;

/** Throws when the JSON is longer than a length can say. */
function checkLength(bytes: number): void {
  if (String(bytes).length > LENGTH_DIGITS) throw new RangeError(`got a line of ${bytes} bytes`);
}

/**
 * A line of at least `bytes` bytes, blanks before its line feed making up for what is missing.
 *
 * @example encodeLine({ n: 1 }) // bytes of '00000007 d44b3b7e {"n":1}\n'
 */
export function encodeLine(value: unknown, bytes = 0): Uint8Array {
  const text = encoder.encode(JSON.stringify(value));
  checkLength(Math.max(text.length, bytes));
  const line = new Uint8Array(Math.max(bytes, HEAD + text.length + 1)).fill(SPACE);
  line.set(text, HEAD);
  const payload = line.subarray(HEAD, -1);
  line.set(encoder.encode(headOf(payload)));
  line[line.length - 1] = LINE_FEED;
  return line;
}

function headOf(payload: Uint8Array): string {
  const length = String(payload.length).padStart(LENGTH_DIGITS, '0');
  return `${length} ${crc32(payload).toString(16).padStart(CRC_DIGITS, '0')} `;
}

export interface ReadLines {
  readonly values: readonly unknown[];
  /** Whether every byte belongs to a line whose checksum holds. */
  readonly clean: boolean;
}

/** Every line that can still be read, whatever stands between them. Never throws. */
export function readLines(bytes: Uint8Array): ReadLines {
  const values: unknown[] = [];
  let clean = true;
  let at = 0;
  while (at < bytes.length) {
    const line = readLine(bytes, at);
    // A line feed that is damaged costs nothing else: the length says where the line ends.
    clean &&= line !== null && bytes[line.end] === LINE_FEED;
    if (line !== null) values.push(line.value);
    at = line === null ? nextStart(bytes, at) : line.end + 1;
  }
  return { values, clean };
}

/** Where the first whole line after `at` may start. */
export function nextStart(bytes: Uint8Array, at: number): number {
  const end = bytes.indexOf(LINE_FEED, at);
  return end < 0 ? bytes.length : end + 1;
}

function readLine(bytes: Uint8Array, at: number): { value: unknown; end: number } | null {
  const start = at + HEAD;
  const end = start + Number(decoder.decode(bytes.subarray(at, at + LENGTH_DIGITS)));
  if (!(end > start && end <= bytes.length)) return null;
  const payload = bytes.subarray(start, end);
  if (decoder.decode(bytes.subarray(at, start)) !== headOf(payload)) return null;
  const value = parsed(decoder.decode(payload));
  return value === undefined ? null : { value, end };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
