/** Bytes as text that any address, message or mail carries unchanged (RFC 4648, section 5, no padding). */
const SIGNS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
const VALUES = new Map([...SIGNS].map((sign, value) => [sign, value]));

/** Four signs for every three bytes; two for one byte left over, three for two. */
export function toBase64url(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 3) {
    const [a = 0, b = 0, c = 0] = bytes.subarray(at, at + 3);
    const bits = (a << 16) | (b << 8) | c;
    const signs = Math.min(4, bytes.length - at + 1);
    for (let i = 0; i < signs; i++) text += SIGNS[(bits >> (18 - 6 * i)) & 63];
  }
  return text;
}

/** Null for any other sign, for a length no bytes have, and for a last sign with bits to spare set. */
export function fromBase64url(text: string): Uint8Array<ArrayBuffer> | null {
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  if (text.length % 4 === 1) return null;
  let bits = 0;
  let held = 0;
  let at = 0;
  for (const sign of text) {
    const value = VALUES.get(sign);
    if (value === undefined) return null;
    bits = ((bits << 6) | value) & 0xffff;
    held += 6;
    if (held < 8) continue;
    held -= 8;
    bytes[at++] = (bits >> held) & 255;
  }
  return (bits & ((1 << held) - 1)) === 0 ? bytes : null;
}
