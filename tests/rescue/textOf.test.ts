import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { base64Of } from '../../src/rescue/base64.ts';
import { textOf } from '../../src/rescue/textOf.ts';

const withItself: Record<string, unknown> = { a: 1 };
withItself.me = withItself;
const twice = { n: 1 };
const holes: unknown[] = [1];
holes[3] = 2;

describe('any value a database can hold, as JSON', () => {
  it.each([
    [
      'plain data',
      { a: [1, 'x', null, true, { b: [] }], c: {} },
      { a: [1, 'x', null, true, { b: [] }], c: {} },
    ],
    ['a date', new Date('2026-03-01T09:00:00Z'), { $: 'date', of: '2026-03-01T09:00:00.000Z' }],
    ['no date', new Date(Number.NaN), { $: 'date', of: 'none' }],
    ['not a number', { n: Number.NaN }, { n: { $: 'number', of: 'NaN' } }],
    ['infinity', [Number.NEGATIVE_INFINITY], [{ $: 'number', of: '-Infinity' }]],
    ['negative nought', -0, { $: 'number', of: '-0' }],
    ['undefined', { a: undefined }, { a: { $: 'undefined' } }],
    ['a big number', 2n ** 70n, { $: 'bigint', of: '1180591620717411303424' }],
    ['bytes', new Uint8Array([1, 2, 250]), { $: 'uint8array', of: 'AQL6' }],
    ['a buffer', new Uint8Array([1]).buffer, { $: 'arraybuffer', of: 'AQ==' }],
    [
      'a view into a buffer',
      new DataView(new Uint8Array([9, 8, 7]).buffer, 1, 1),
      { $: 'dataview', of: 'CA==' },
    ],
    ['a blob', new Blob(['weft']), { $: 'blob', of: 'd2VmdA==' }],
    [
      'a map',
      new Map<unknown, unknown>([
        ['a', 1],
        [2, 'b'],
      ]),
      {
        $: 'map',
        of: [
          ['a', 1],
          [2, 'b'],
        ],
      },
    ],
    ['a set', new Set(['a', undefined]), { $: 'set', of: ['a', { $: 'undefined' }] }],
    [
      'an array with holes',
      holes,
      {
        $: 'array',
        as: '',
        of: [
          ['0', 1],
          ['3', 2],
        ],
      },
    ],
    ['an expression', /a+/g, { $: 'regexp', as: '/a+/g', of: [] }],
    ['an error', new RangeError('far'), { $: 'error', as: 'RangeError: far', of: [] }],
    ['something in itself', withItself, { a: 1, me: { $: 'itself' } }],
    ['something twice', [twice, twice], [{ n: 1 }, { n: 1 }]],
    [
      'a key that looks like ours',
      { $: 'date', of: 'x' },
      {
        $: 'object',
        as: '',
        of: [
          ['$', 'date'],
          ['of', 'x'],
        ],
      },
    ],
    ['a text that does', { toJSON: 'x' }, { toJSON: 'x' }],
    ['half a letter', '\ud800', '\ud800'],
  ])('%s', async (_what, value, json) => {
    expect(JSON.parse(await textOf(value))).toEqual(json);
  });

  it('keeps keys of every object’s prototype as keys', async () => {
    const value: unknown = JSON.parse('{"__proto__": {"x": 1}, "constructor": 2, "n": 1e999}');
    expect(await textOf(value)).toContain('"__proto__":{"x":1}');
  });

  it('however deep', async () => {
    let deep: unknown = Number.NaN;
    for (let n = 0; n < 50_000; n++) deep = n % 2 === 0 ? [deep] : { a: deep };
    const text = await textOf(deep);
    expect(text.split('[').length - 1).toBe(25_000);
    expect(text).toContain('"NaN"');
  });

  it('is what JSON itself says wherever that can say it', async () => {
    await fc.assert(
      fc.asyncProperty(fc.jsonValue(), async (value) => {
        const plain: unknown = JSON.parse(JSON.stringify(value));
        expect(JSON.parse(await textOf(plain))).toEqual(plain);
        // By the long way too: one value that is not plain takes all of it there.
        expect(JSON.parse(await textOf([plain, undefined]))).toEqual([plain, { $: 'undefined' }]);
      }),
    );
  });
});

it('bytes of any number are those of a general-purpose encoder', () => {
  fc.assert(
    fc.property(fc.nat(70_000), (length) => {
      const bytes = Uint8Array.from({ length }, (_, n) => (n * 7919) & 255);
      expect(base64Of(bytes)).toBe(Buffer.from(bytes).toString('base64'));
    }),
    { numRuns: 30 },
  );
});
