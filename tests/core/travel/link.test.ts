import { describe, expect, it } from 'vitest';
import { linkFor, sealedIn } from '../../../src/core/travel/link.ts';

describe('a link', () => {
  it('is the address with the plan behind a #', () => {
    expect(linkFor('https://example.org/loom/', 'AbC-_9')).toEqual({
      ok: true,
      value: 'https://example.org/loom/#plan=AbC-_9',
    });
  });

  it('has 1,800 signs at most, address and all; a longer one says how long it would be', () => {
    const address = 'https://example.org/';
    const room = 1_800 - address.length - '#plan='.length;
    expect(linkFor(address, 'A'.repeat(room)).ok).toBe(true);
    expect(linkFor(address, 'A'.repeat(room + 510))).toEqual({
      ok: false,
      problem: { code: 'too-long', got: 2_310, most: 1_800 },
    });
  });

  it.each([
    ['https://example.org/#plan=AbC', 'AbC'],
    ['http://127.0.0.1:4173/loom/#plan=AbC-_', 'AbC-_'],
    ['#plan=AbC', 'AbC'],
    ['Here are the towels: https://example.org/#plan=AbC see you', 'AbC'],
    ['https://example.org/#plan=', ''],
    ['https://example.org/#plans=AbC', null],
    ['https://example.org/?plan=AbC', null],
    ['AbC', null],
    ['', null],
  ])('in %j the plan is %j', (text, sealed) => {
    expect(sealedIn(text)).toBe(sealed);
  });
});
