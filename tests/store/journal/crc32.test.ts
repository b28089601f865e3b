import { crc32 as referenceCrc32 } from 'node:zlib';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { crc32 } from '../../../src/store/journal/crc32.ts';

const bytesOf = (text: string) => new TextEncoder().encode(text);

test.each([
  // The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms.
  ['123456789', 0xcbf43926],
  ['', 0],
  // From memory: the checksum of this sentence in gzip trailers everywhere.
  ['The quick brown fox jumps over the lazy dog', 0x414fa339],
])('of “%s”', (text, crc) => {
  expect(crc32(bytesOf(text))).toBe(crc);
});

test('is what zlib says, of any bytes', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 2_000 }), (bytes) => {
      expect(crc32(bytes)).toBe(referenceCrc32(bytes));
    }),
  );
});
