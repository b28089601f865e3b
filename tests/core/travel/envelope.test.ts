import { describe, expect, it } from 'vitest';
import { fromBase64url, toBase64url } from '../../../src/core/travel/base64url.ts';
import { crc32 } from '../../../src/core/travel/crc32.ts';
import { seal, UNPACKED_LIMIT, unseal } from '../../../src/core/travel/envelope.ts';

const deflated = Uint8Array.from([1, 2, 3, 4, 5]);
const sealed = seal({ deflated, unpackedLength: 0x1234 }) ?? '';

/** Version, whole length, unpacked length; the checksum is over these and what follows it. */
function byHand(head: readonly number[], rest: readonly number[]): string {
  const sum = crc32(Uint8Array.from([...head, ...rest]));
  const check = [24, 16, 8, 0].map((shift) => (sum >>> shift) & 255);
  return toBase64url(Uint8Array.from([...head, ...check, ...rest]));
}

describe('an envelope', () => {
  it('is the head, the checksum and the bytes', () => {
    expect(sealed).toBe(byHand([1, 0, 15, 0, 0x12, 0x34], [1, 2, 3, 4, 5]));
    expect(unseal(sealed)).toEqual({ ok: true, value: { deflated, unpackedLength: 0x1234 } });
  });

  it('cut short says how much of it is there', () => {
    expect(unseal(sealed.slice(0, 12))).toEqual({
      ok: false,
      problem: { code: 'cut-short', got: 12, of: 20 },
    });
  });

  it.each(['', 'A', 'AQ', 'AQA', 'none of it', '%%%%%%'])('%j is refused', (text) => {
    expect(unseal(text).ok).toBe(false);
  });

  it('with any one sign changed is refused: every sign at every place', () => {
    const signs = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.=%';
    for (let at = 0; at < sealed.length; at++) {
      for (const sign of signs) {
        const changed = sealed.slice(0, at) + sign + sealed.slice(at + 1);
        expect(unseal(changed).ok, `${sign} at ${at}`).toBe(changed === sealed);
      }
    }
  });

  it('with one sign more or fewer anywhere is refused', () => {
    for (let at = 0; at < sealed.length; at++) {
      expect(unseal(sealed.slice(0, at) + sealed.slice(at + 1)).ok).toBe(false);
      expect(unseal(`${sealed.slice(0, at)}A${sealed.slice(at)}`).ok).toBe(false);
    }
    expect(unseal(`${sealed}A`).ok).toBe(false);
  });

  it('of a later version is told as such, so long as it is whole', () => {
    expect(unseal(byHand([2, 0, 15, 0, 0, 9], [1, 2, 3, 4, 5]))).toEqual({
      ok: false,
      problem: { code: 'newer', version: 2 },
    });
  });

  it('that would unpack to more than a plan is refused unread', () => {
    const head = [1, 0, 15, 0xff, 0xff, 0xff];
    expect(unseal(byHand(head, [1, 2, 3, 4, 5]))).toEqual({
      ok: false,
      problem: { code: 'too-large' },
    });
  });

  it('holds 65,525 bytes and no more, of at most 100,000 unpacked', () => {
    const most = seal({ deflated: new Uint8Array(65_525), unpackedLength: UNPACKED_LIMIT });
    expect(fromBase64url(most ?? '')?.length).toBe(0xffff);
    expect(unseal(most ?? '').ok).toBe(true);
    expect(seal({ deflated: new Uint8Array(65_526), unpackedLength: 1 })).toBeNull();
    expect(seal({ deflated, unpackedLength: UNPACKED_LIMIT + 1 })).toBeNull();
  });

  it('beyond its longest is refused without being decoded', () => {
    expect(unseal('A'.repeat(10_000_000))).toEqual({ ok: false, problem: { code: 'changed' } });
  });
});
