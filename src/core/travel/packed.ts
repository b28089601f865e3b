/**
 * A plan as few bytes: what JSON holds, but its words as numbers (`words.ts`) and its numbers as
 * short as they are. Made to be compressed afterwards; a plan in JSON is twice as long even then.
 *
 * Each value begins with a byte that says what it is.
 */
import { fail, ok, type Result } from '../measure/result.ts';
import { LIMITS } from '../plan/limits.ts';
import { type Reader, reader, type Writer, writer } from './bytes.ts';
import { WORDS } from './words.ts';

/** 0 to 63 is that number itself. */
const SMALL = 64;
const LIST = 64;
const RECORD = 80;
/** Lists and records shorter than this say their length in the first byte. */
const SHORT = 15;
const TEXT = 96;
const WHOLE = 97;
const NEGATIVE = 98;
const DECIMAL = 99;
const FLOAT = 100;
const COLOUR = 101;
const YES = 102;
const NO = 103;
const NOTHING = 104;
/** A to Z. */
const LETTER = 105;
const LETTERS = 26;
const FAR_WORD = LETTER + LETTERS;
const WORD = FAR_WORD + 1;
/** Words beyond these have their number in the bytes that follow. */
const NEAR_WORDS = 256 - WORD;

/** Packs anything JSON can hold; a key or a number comes back exactly as it was. */
export function packValue(value: unknown): Uint8Array<ArrayBuffer> {
  const out = writer();
  put(out, value);
  return out.done();
}

function put(out: Writer, value: unknown): void {
  if (typeof value === 'number') putNumber(out, value);
  else if (typeof value === 'string') putText(out, value);
  else if (Array.isArray(value)) {
    putHead(out, LIST, value.length);
    for (const item of value) put(out, item);
  } else if (typeof value === 'object' && value !== null) {
    const fields = Object.entries(value).filter(([, field]) => field !== undefined);
    putHead(out, RECORD, fields.length);
    for (const [name, field] of fields) {
      putText(out, name);
      put(out, field);
    }
  } else out.byte(value === true ? YES : value === false ? NO : NOTHING);
}

function putHead(out: Writer, kind: number, count: number): void {
  out.byte(kind + Math.min(count, SHORT));
  if (count >= SHORT) out.whole(count - SHORT);
}

function putNumber(out: Writer, value: number): void {
  if (Number.isSafeInteger(value) && !Object.is(value, -0)) {
    if (value >= 0 && value < SMALL) {
      out.byte(value);
      return;
    }
    out.byte(value < 0 ? NEGATIVE : WHOLE);
    out.whole(Math.abs(value));
    return;
  }
  const decimal = decimalOf(value);
  out.byte(decimal === null ? FLOAT : DECIMAL);
  if (decimal === null) {
    out.float(value);
    return;
  }
  out.byte(decimal.places + (value < 0 ? NEGATIVE_PLACES : 0));
  out.whole(decimal.digits);
}

const MOST_PLACES = 15;
const NEGATIVE_PLACES = 128;

/** 0.05 is 5 with two places. Null for what has no short decimal that reads back the same. */
function decimalOf(value: number): { readonly digits: number; readonly places: number } | null {
  const parts = /^-?(\d+)\.(\d+)$/.exec(String(value));
  const places = parts?.[2]?.length ?? 0;
  const digits = Number(`${parts?.[1]}${parts?.[2]}`);
  if (places === 0 || places > MOST_PLACES || !Number.isSafeInteger(digits)) return null;
  return digits / 10 ** places === Math.abs(value) ? { digits, places } : null;
}

const COLOUR_TEXT = /^#[0-9a-f]{6}$/;
const NUMBERS = new Map(WORDS.map((word, number) => [word, number]));

function putText(out: Writer, text: string): void {
  const word = NUMBERS.get(text);
  if (word !== undefined) {
    out.byte(word < NEAR_WORDS ? WORD + word : FAR_WORD);
    if (word >= NEAR_WORDS) out.whole(word - NEAR_WORDS);
  } else if (/^[A-Z]$/.test(text)) out.byte(LETTER + text.charCodeAt(0) - A);
  else if (COLOUR_TEXT.test(text)) {
    out.byte(COLOUR);
    for (const at of [1, 3, 5]) out.byte(Number.parseInt(text.slice(at, at + 2), 16));
  } else {
    out.byte(TEXT);
    out.whole(text.length);
    // By code unit, so that half a surrogate pair comes back as it was.
    for (let at = 0; at < text.length; at++) out.whole(text.charCodeAt(at));
  }
}

const A = 'A'.charCodeAt(0);

/** The value again, or `broken` for bytes that no `packValue` wrote. Never throws. */
export function unpackValue(bytes: Uint8Array): Result<unknown, 'broken'> {
  const from = reader(bytes);
  const value = take(from, 0);
  return value === BROKEN || from.left() > 0 ? fail('broken') : ok(value);
}

const BROKEN = Symbol('broken');

function take(from: Reader, depth: number): unknown {
  const head = from.byte();
  if (head === null || depth > LIMITS.nesting) return BROKEN;
  if (head < SMALL) return head;
  if (head < RECORD) return takeList(from, head - LIST, depth);
  if (head < TEXT) return takeRecord(from, head - RECORD, depth);
  if (head >= WORD) return WORDS[head - WORD] ?? BROKEN;
  if (head >= LETTER && head < FAR_WORD) return String.fromCharCode(A + head - LETTER);
  return takeScalar(from, head);
}

function takeScalar(from: Reader, head: number): unknown {
  switch (head) {
    case TEXT:
      return takeText(from);
    case WHOLE:
      return from.whole() ?? BROKEN;
    case NEGATIVE: {
      const size = from.whole();
      return size === null ? BROKEN : -size;
    }
    case DECIMAL:
      return takeDecimal(from);
    case FLOAT:
      return from.float() ?? BROKEN;
    case COLOUR: {
      const parts = from.bytes(3);
      if (parts === null) return BROKEN;
      return `#${[...parts].map((part) => part.toString(16).padStart(2, '0')).join('')}`;
    }
    case FAR_WORD:
      return WORDS[NEAR_WORDS + (from.whole() ?? Number.NaN)] ?? BROKEN;
    default:
      return head === YES ? true : head === NO ? false : null;
  }
}

function takeDecimal(from: Reader): unknown {
  const sign = from.byte();
  const digits = from.whole();
  if (sign === null || digits === null) return BROKEN;
  const size = digits / 10 ** (sign % NEGATIVE_PLACES);
  return sign < NEGATIVE_PLACES ? size : -size;
}

/** How many there are; null when fewer bytes are left than that many could take. */
function takeCount(from: Reader, short: number, bytesEach: number): number | null {
  const more = short < SHORT ? 0 : from.whole();
  const count = more === null ? null : short + more;
  return count === null || count * bytesEach > from.left() ? null : count;
}

function takeList(from: Reader, short: number, depth: number): unknown {
  const count = takeCount(from, short, 1);
  if (count === null) return BROKEN;
  const items: unknown[] = [];
  for (let i = 0; i < count; i++) {
    const item = take(from, depth + 1);
    if (item === BROKEN) return BROKEN;
    items.push(item);
  }
  return items;
}

function takeRecord(from: Reader, short: number, depth: number): unknown {
  const count = takeCount(from, short, 2);
  if (count === null) return BROKEN;
  const fields: [string, unknown][] = [];
  for (let i = 0; i < count; i++) {
    const name = take(from, depth + 1);
    const field = take(from, depth + 1);
    if (typeof name !== 'string' || field === BROKEN) return BROKEN;
    fields.push([name, field]);
  }
  // Makes plain fields of its own, also of one named __proto__.
  return Object.fromEntries(fields);
}

function takeText(from: Reader): unknown {
  const length = from.whole();
  if (length === null || length > from.left()) return BROKEN;
  let text = '';
  for (let i = 0; i < length; i++) {
    const unit = from.whole();
    if (unit === null || unit > 0xffff) return BROKEN;
    text += String.fromCharCode(unit);
  }
  return text;
}
