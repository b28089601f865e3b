/** A checksum of text, so that a file that was cut or changed on its way is known for one. */
import { crc32 } from '../../travel/crc32.ts';

/** Units of UTF-16 made bytes at one go: a backup may be longer than memory holds twice. */
const PART = 32_768;

/**
 * CRC-32 in eight hexadecimal digits. Text in ASCII is its bytes; any other unit of UTF-16 counts as
 * two, the higher first.
 *
 * @example checksumOf('123456789') // 'cbf43926'
 */
export function checksumOf(text: string): string {
  const bytes = new Uint8Array(2 * PART);
  let crc = 0;
  for (let from = 0; from < text.length; from += PART) {
    const end = Math.min(from + PART, text.length);
    let size = 0;
    for (let i = from; i < end; i++) {
      const unit = text.charCodeAt(i);
      if (unit > 127) bytes[size++] = unit >>> 8;
      bytes[size++] = unit & 255;
    }
    crc = crc32(bytes.subarray(0, size), crc);
  }
  return crc.toString(16).padStart(8, '0');
}
