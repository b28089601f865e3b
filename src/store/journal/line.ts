/**
 * The lines of the journal: `<bytes> <CRC-32 in hex> <JSON>`, each ended by a line feed. A person
 * can read the file as it is. JSON text never holds a line feed, so that whatever happened to one
 * line, the next one can be found.
 */
import { crc32 } from './crc32.ts';

const encoder = new TextEncoder();
const decoder = new TextDecoder();
const LINE_FEED = 10;
const SPACE = 32;
/** Longer lengths than this are no lengths. */
const MOST_DIGITS = 10;
const CRC_DIGITS = 8;

/**
 * A line of at least `bytes` bytes, blanks before its line feed making up for what is missing.
 *
 * @example encodeLine({ n: 1 }) // bytes of '7 72db3a19 {"n":1}\n'
 */
export function encodeLine(value: unknown, bytes = 0): Uint8Array {
  const text = encoder.encode(JSON.stringify(value));
  const headOf = (payload: Uint8Array) => encoder.encode(`${payload.length} ${checksum(payload)} `);
  const payload = padded(text, bytes - 1 - headOf(text).length);
  const head = headOf(payload);
  const line = new Uint8Array(head.length + payload.length + 1);
  line.set(head);
  line.set(payload, head.length);
  line[line.length - 1] = LINE_FEED;
  return line;
}

function padded(text: Uint8Array, length: number): Uint8Array {
  if (text.length >= length) return text;
  const longer = new Uint8Array(length).fill(SPACE);
  longer.set(text);
  return longer;
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
  const space = bytes.subarray(at, at + MOST_DIGITS + 1).indexOf(SPACE);
  if (space < 1) return null;
  const start = at + space + 1 + CRC_DIGITS + 1;
  const length = Number(decoder.decode(bytes.subarray(at, at + space)));
  const end = start + length;
  if (!Number.isSafeInteger(length) || length < 1 || end > bytes.length) return null;
  const payload = bytes.subarray(start, end);
  const said = decoder.decode(bytes.subarray(start - CRC_DIGITS - 1, start));
  if (said !== `${checksum(payload)} `) return null;
  const value = parsed(decoder.decode(payload));
  return value === undefined ? null : { value, end };
}

function checksum(payload: Uint8Array): string {
  return crc32(payload).toString(16).padStart(CRC_DIGITS, '0');
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
