import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planSchema } from '../../../src/core/plan/schema.ts';
import { crc32 } from '../../../src/core/travel/crc32.ts';
import { packValue, unpackValue } from '../../../src/core/travel/packed.ts';
import { WORDS } from '../../../src/core/travel/words.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { checked, DEMOS, demo } from '../plan/samples.ts';

const again = (value: unknown) => {
  const unpacked = unpackValue(packValue(value));
  return unpacked.ok ? unpacked.value : 'broken';
};

describe('a value packed', () => {
  it.each([
    ['a small whole number is itself', 18, [18]],
    ['a larger one seven bits a byte', 300, [97, 0xac, 2]],
    ['one below nought', -2, [98, 2]],
    ['a decimal its digits and places', 2.54, [99, 2, 0xfe, 1]],
    ['a decimal below nought', -0.5, [99, 129, 5]],
    ['a colour three bytes', '#5d7043', [101, 0x5d, 0x70, 0x43]],
    ['a letter one byte', 'C', [107]],
    ['the first word', 'kind', [132]],
    ['text its length and letters', 'moss', [96, 4, 109, 111, 115, 115]],
    ['a list its length and items', [1, 'A'], [66, 1, 105]],
    ['a record its length, names and fields', { kind: 'A' }, [81, 132, 105]],
    ['yes, no, nothing', [true, false, null], [67, 102, 103, 104]],
  ])('%s: %j', (_, value, bytes) => {
    expect([...packValue(value)]).toEqual(bytes);
    expect(again(value)).toEqual(value);
  });

  it.each([
    0.1 + 0.2,
    1 / 3,
    -1 / 3,
    1e-9,
    1e300,
    -1e300,
    Number.MAX_SAFE_INTEGER,
    -Number.MAX_SAFE_INTEGER,
    2 ** 60,
    -0,
    577.85,
    0.000001,
    '#5D7043',
    '#5d704',
    'AB',
    '',
    'ü🧶\ud800',
    Array.from({ length: 400 }, (_, i) => i),
    Object.fromEntries(Array.from({ length: 40 }, (_, i) => [`f${i}`, i])),
    JSON.parse('{"__proto__":{"a":1},"constructor":2}'),
  ])('%j comes back exactly', (value) => {
    expect(again(value)).toStrictEqual(value);
    expect(Object.is(again(value), value) || typeof value === 'object').toBe(true);
  });

  it('anything JSON holds comes back exactly, its fields in their order', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), (value) => {
        expect(again(value)).toStrictEqual(value);
        expect(JSON.stringify(again(value))).toBe(JSON.stringify(value));
      }),
    );
  });

  it('a plan comes back exactly, in less than half its JSON', () => {
    const plans = [...DEMOS.map((name) => checked(demo(name))), ...fc.sample(anyPlan, 50)];
    for (const plan of plans) {
      expect(again(plan)).toStrictEqual(plan);
      expect(packValue(plan).length).toBeLessThan(JSON.stringify(plan).length / 2);
    }
  });
});

describe('bytes that nothing was packed into', () => {
  it.each([
    ['none', []],
    ['a list that ends early', [66, 1]],
    ['more than one value', [1, 2]],
    ['a list of a billion', [79, 0xff, 0xff, 0xff, 0xff, 3]],
    ['a text of a billion letters', [96, 0xff, 0xff, 0xff, 0xff, 3, 65]],
    ['a letter beyond all letters', [96, 1, 0xff, 0xff, 7]],
    ['a number beyond exact ones', [97, 255, 255, 255, 255, 255, 255, 255, 255, 1]],
    ['a field named by a number', [81, 1, 1]],
    ['a word there is not', [131, 100]],
    ['lists in lists without end', Array.from({ length: 500 }, () => 65)],
    ['lists in lists deeper than a plan', [...Array.from({ length: 500 }, () => 65), 0]],
  ])('%s: broken', (_, bytes) => {
    expect(unpackValue(Uint8Array.from(bytes))).toEqual({ ok: false, problem: 'broken' });
  });

  it('never make it throw', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        expect(typeof unpackValue(bytes).ok).toBe('boolean');
      }),
      { numRuns: 2000 },
    );
  });
});

/** Names of fields and choices anywhere in a schema, walked as valibot keeps it. */
function wordsOf(schema: unknown, seen = new Set<unknown>()): ReadonlySet<string> {
  const found = new Set<string>();
  const walk = (it: unknown): void => {
    if (typeof it !== 'object' || it === null || seen.has(it)) return;
    seen.add(it);
    const { type, entries, literal, options, getter } = it as Record<string, unknown>;
    if (typeof entries === 'object' && entries !== null)
      for (const name of Object.keys(entries)) found.add(name);
    if (type === 'literal' && typeof literal === 'string') found.add(literal);
    if (type === 'picklist' && Array.isArray(options))
      for (const option of options) found.add(String(option));
    if (type === 'lazy' && typeof getter === 'function') walk(getter());
    for (const part of Object.values(it)) walk(part);
  };
  walk(schema);
  return found;
}

describe('the words', () => {
  it('are all those of the schema of plans', () => {
    const wanted = wordsOf(planSchema);
    expect(wanted.size).toBeGreaterThan(100);
    expect([...wanted].filter((word) => !WORDS.includes(word))).toEqual([]);
  });

  it('are each there once', () => {
    expect(new Set(WORDS).size).toBe(WORDS.length);
  });

  it('keep their numbers for ever: the first 142 are those of the first links', () => {
    const first = new TextEncoder().encode(WORDS.slice(0, 142).join(' '));
    expect(crc32(first)).toBe(0xa73b46e0);
  });
});
