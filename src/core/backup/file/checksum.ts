/** A checksum of text, so that a file that was cut or changed on its way is known for one. */

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/**
 * CRC-32 (the polynomial of ISO 3309), eight hexadecimal digits. Text in ASCII is its bytes; any
 * other unit of UTF-16 counts as two.
 *
 * @example checksumOf('123456789') // 'cbf43926'
 */
export function checksumOf(text: string): string {
  let rest = -1;
  const take = (byte: number) => {
    rest = (rest >>> 8) ^ (TABLE[(rest ^ byte) & 255] ?? 0);
  };
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit > 127) take(unit >>> 8);
    take(unit & 255);
  }
  return ((rest ^ -1) >>> 0).toString(16).padStart(8, '0');
}
