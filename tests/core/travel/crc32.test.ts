import { crc32 as zlibCrc32 } from 'node:zlib';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { crc32 } from '../../../src/core/travel/crc32.ts';

it('of 123456789 it is 0xCBF43926, the check value published for this CRC', () => {
  expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  expect(crc32(new Uint8Array())).toBe(0);
});

it('says what zlib says', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 2000 }), (bytes) => {
      expect(crc32(bytes)).toBe(zlibCrc32(bytes));
    }),
  );
});

it('of a text in parts is that of the whole', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), fc.nat(200), (bytes, n) => {
      expect(crc32(bytes.subarray(n), crc32(bytes.subarray(0, n)))).toBe(zlibCrc32(bytes));
    }),
  );
});
