import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { crc32 } from '../../../src/core/travel/crc32.ts';
import { encodeLine, readLines } from '../../../src/store/journal/line.ts';

const joined = (lines: readonly Uint8Array[]) => Uint8Array.from(lines.flatMap((it) => [...it]));
const fileOf = (values: readonly unknown[]) => joined(values.map((value) => encodeLine(value)));
const textOf = (bytes: Uint8Array) => new TextDecoder().decode(bytes);

const values: readonly unknown[] = [
  { n: 1, op: { kind: 'setting', name: 'hand', value: 'left' } },
  { n: 2, op: { kind: 'events', events: [{ id: 'a', picks: 1 }] } },
  { n: 3, op: { kind: 'setting', name: 'note', value: 'line\nfeed, “ü”, 🧶' } },
  { n: 4, op: { kind: 'noWarp', id: 'a' } },
];

describe('a line', () => {
  test('is read by a person: length, checksum, JSON', () => {
    expect(textOf(encodeLine({ n: 1 }))).toBe('00000007 d44b3b7e {"n":1}\n');
    expect(textOf(encodeLine('ü'))).toMatch(/^00000004 [0-9a-f]{8} "ü"\n$/);
  });

  test('holds one line feed, at its end', () => {
    for (const value of values) {
      const line = encodeLine(value);
      expect(line.indexOf(10)).toBe(line.length - 1);
    }
  });

  test.each([40, 100, 256])('can be made %i bytes long, and reads the same', (bytes) => {
    const line = encodeLine({ n: 1 }, bytes);
    expect(line.length).toBe(bytes);
    expect(readLines(line)).toEqual({ values: [{ n: 1 }], clean: true });
  });

  test('is never cut to be shorter than what it says', () => {
    expect(readLines(encodeLine(values[1], 10)).values).toEqual([values[1]]);
  });
});

describe('what was written reads back', () => {
  test('in a table', () => {
    expect(readLines(fileOf(values))).toEqual({ values, clean: true });
    expect(readLines(new Uint8Array())).toEqual({ values: [], clean: true });
  });

  test('whatever it was', () => {
    fc.assert(
      fc.property(fc.array(fc.jsonValue({ maxDepth: 3 })), (any) => {
        // JSON has one zero.
        const given = JSON.parse(JSON.stringify(any));
        expect(readLines(fileOf(given))).toEqual({ values: given, clean: true });
      }),
    );
  });
});

test('a line longer than a length can say is not begun', () => {
  expect(() => encodeLine({}, 100_000_000)).toThrow('got a line of 100000000 bytes');
});

test('a line whose checksum holds but which is no JSON is damaged, and costs nothing else', () => {
  const text = new TextEncoder().encode('{"n":1,,}');
  const head = `${String(text.length).padStart(8, '0')} ${crc32(text).toString(16).padStart(8, '0')} `;
  const odd = joined([new TextEncoder().encode(head), text, Uint8Array.of(10)]);
  const file = joined([encodeLine(values[0]), odd, encodeLine(values[1])]);
  expect(readLines(file)).toEqual({ values: values.slice(0, 2), clean: false });
});

describe('a damaged file', () => {
  const file = fileOf(values);
  const starts = values.map((_, i) => fileOf(values.slice(0, i)).length);

  test('cut off at every byte keeps every whole line before the cut, and says so', () => {
    for (let length = 0; length < file.length; length += 1) {
      const read = readLines(file.slice(0, length));
      // A line is whole without its line feed too.
      const whole = values.filter((_, i) => (starts[i + 1] ?? file.length) - 1 <= length);
      expect(read.values).toEqual(whole);
      expect(read.clean).toBe(length === 0 || starts.includes(length));
    }
  });

  test('changed at every byte, any bit or all of them, loses at most the line it stands in', () => {
    for (let at = 0; at < file.length; at += 1) {
      const hit = starts.findLastIndex((start) => start <= at);
      for (const by of [1, 2, 4, 8, 16, 32, 64, 128, 255]) {
        const changed = file.slice();
        changed[at] = (file[at] ?? 0) ^ by;
        const read = readLines(changed);
        expect(read.clean).toBe(false);
        const others = values.filter((_, i) => i !== hit);
        const isLineFeed = at === (starts[hit + 1] ?? file.length) - 1;
        expect(read.values).toEqual(isLineFeed ? values : others);
      }
    }
  });

  test('is never read as something that was not written, whatever bytes it holds', () => {
    const damage = fc.record({
      at: fc.nat({ max: file.length }),
      remove: fc.nat({ max: 60 }),
      insert: fc.uint8Array({ maxLength: 60 }),
    });
    fc.assert(
      fc.property(fc.array(damage, { minLength: 1, maxLength: 4 }), (all) => {
        let bytes = [...file];
        for (const { at, remove, insert } of all) {
          bytes = [...bytes.slice(0, at), ...insert, ...bytes.slice(at + remove)];
        }
        const read = readLines(Uint8Array.from(bytes));
        for (const value of read.values) expect(values).toContainEqual(value);
      }),
      { numRuns: 2_000 },
    );
  });

  test.each([
    ['zeros, as a torn write leaves them', new Uint8Array(500)],
    ['blanks', new Uint8Array(500).fill(32)],
    ['line feeds', new Uint8Array(50).fill(10)],
    ['a length without end', new TextEncoder().encode('99999999 00000000 {}\n')],
    ['a length beyond the end', new TextEncoder().encode('00000900 00000000 {}\n')],
  ])('with %s in the middle loses nothing else', (_what, junk) => {
    const bytes = joined([fileOf(values.slice(0, 2)), junk, Uint8Array.of(10), fileOf(values)]);
    expect(readLines(bytes)).toEqual({ values: [...values.slice(0, 2), ...values], clean: false });
  });
});
