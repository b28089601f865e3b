/** CRC-32 as in ISO 3309 and PNG, Annex D: reflected, polynomial 0xEDB88320. */
const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  return crc;
});

/**
 * The check value of some bytes, 0 to 2³² − 1: of the nine bytes `123456789` it is 0xCBF43926.
 * `before` is the check value of the bytes in front of them, so that a long text goes in parts.
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  let crc = before ^ 0xffffffff;
  for (const byte of bytes) crc = (crc >>> 8) ^ (TABLE[(crc ^ byte) & 255] ?? 0);
  return (crc ^ 0xffffffff) >>> 0;
}
