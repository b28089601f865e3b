import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromBase64url, toBase64url } from '../../../src/core/travel/base64url.ts';

const bytesOf = (text: string) => new TextEncoder().encode(text);

describe('base64url', () => {
  // RFC 4648, section 10, without its padding; the last two from section 5's own signs.
  it.each([
    ['', ''],
    ['f', 'Zg'],
    ['fo', 'Zm8'],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg'],
    ['fooba', 'Zm9vYmE'],
    ['foobar', 'Zm9vYmFy'],
  ])('%j is %j', (plain, coded) => {
    expect(toBase64url(bytesOf(plain))).toBe(coded);
    expect(fromBase64url(coded)).toEqual(bytesOf(plain));
  });

  it('says what Node says, and back', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        const coded = toBase64url(bytes);
        expect(coded).toBe(Buffer.from(bytes).toString('base64url'));
        expect(fromBase64url(coded)).toEqual(new Uint8Array(bytes));
      }),
    );
  });

  it.each(['Z', 'Zm9vY', 'Zg==', 'Zm9+', 'Zm 8', 'Zm8\n', 'Zmé', 'Zh', 'Zm9'.replace('9', '*')])(
    '%j is refused',
    (text) => expect(fromBase64url(text)).toBeNull(),
  );

  it('no two texts are the same bytes: of those as long as one, only its own is read as it', () => {
    const signs = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
    const readAsF = [...signs]
      .flatMap((a) => [...signs].map((b) => a + b))
      .filter((text) => {
        const bytes = fromBase64url(text);
        return bytes !== null && bytes[0] === 102;
      });
    expect(readAsF).toEqual(['Zg']);
  });
});
