/**
 * What travels in a link: compressed bytes behind a head that says how long all of it is, how long
 * it will be unpacked, and a checksum over every byte. So a link that lost its end or had one sign
 * changed on its way is refused, never read as another plan.
 */
import { fail, ok, type Result } from '../measure/result.ts';
import { fromBase64url, toBase64url } from './base64url.ts';
import { crc32 } from './crc32.ts';

const ENVELOPE_VERSION = 1;

/** Version 1, whole length 2, unpacked length 3, checksum 4 bytes. */
const HEAD = 10;
const CHECKED_HEAD = 6;

/** Bytes a link may unpack to; a plan that needs more would not fit in one anyway. */
export const UNPACKED_LIMIT = 100_000;
const LONGEST = 0xffff;

export interface Sealed {
  readonly deflated: Uint8Array<ArrayBuffer>;
  /** Bytes it inflates to, neither more nor fewer. */
  readonly unpackedLength: number;
}

/** Lengths count signs of the text. */
export type EnvelopeProblem =
  | { readonly code: 'cut-short'; readonly got: number; readonly of: number }
  | { readonly code: 'changed' }
  | { readonly code: 'newer'; readonly version: number }
  | { readonly code: 'too-large' };

/** The text for some compressed bytes; null when they are more than an envelope holds. */
export function seal({ deflated, unpackedLength }: Sealed): string | null {
  const length = HEAD + deflated.length;
  if (length > LONGEST || unpackedLength > UNPACKED_LIMIT) return null;
  const bytes = new Uint8Array(length);
  const view = new DataView(bytes.buffer);
  view.setUint8(0, ENVELOPE_VERSION);
  view.setUint16(1, length);
  view.setUint8(3, unpackedLength >> 16);
  view.setUint16(4, unpackedLength & 0xffff);
  bytes.set(deflated, HEAD);
  view.setUint32(CHECKED_HEAD, checksum(bytes));
  return toBase64url(bytes);
}

/** Reads only the head: the bytes are whole, and inflating them may be tried. */
export function unseal(text: string): Result<Sealed, EnvelopeProblem> {
  const told = toldLength(text);
  if (told !== null && text.length < told)
    return fail({ code: 'cut-short', got: text.length, of: told });
  const bytes = text.length > signsFor(LONGEST) ? null : fromBase64url(text);
  if (bytes === null || bytes.length < HEAD) return fail({ code: 'changed' });
  const view = new DataView(bytes.buffer);
  if (view.getUint16(1) !== bytes.length || view.getUint32(CHECKED_HEAD) !== checksum(bytes))
    return fail({ code: 'changed' });
  const version = view.getUint8(0);
  if (version !== ENVELOPE_VERSION) return fail({ code: 'newer', version });
  const unpackedLength = view.getUint8(3) * 0x10000 + view.getUint16(4);
  if (unpackedLength > UNPACKED_LIMIT) return fail({ code: 'too-large' });
  return ok({ deflated: bytes.slice(HEAD), unpackedLength });
}

/** How many signs the text should have by its own head; null when even that is not there. */
function toldLength(text: string): number | null {
  const head = fromBase64url(text.slice(0, 4));
  return head === null || head.length < 3 ? null : signsFor((head[1] ?? 0) * 256 + (head[2] ?? 0));
}

const signsFor = (bytes: number) => Math.ceil((bytes * 4) / 3);

function checksum(bytes: Uint8Array): number {
  const checked = new Uint8Array(bytes.length - 4);
  checked.set(bytes.subarray(0, CHECKED_HEAD));
  checked.set(bytes.subarray(HEAD), CHECKED_HEAD);
  return crc32(checked);
}
