import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UNITS } from '../../../src/core/measure/length.ts';
import { LIMITS } from '../../../src/core/plan/limits.ts';
import {
  formatBlocks,
  formatStripes,
  parseBlocks,
  parseStripes,
} from '../../../src/core/plan/orderText.ts';
import type { Block, Stripe } from '../../../src/core/plan/plan.ts';
import { TEXT_FAULT_CODES } from '../../../src/core/plan/text/faults.ts';

/** All letters: M is also a metre, X also times, and A and I are words of their own. */
const letter = fc.constantFrom(...'ABCDEFGHIJKLMNOPQRSTUVWXYZ');
const units = fc.constantFrom(...UNITS);
const upTo = (most: number) => fc.oneof(fc.integer({ min: 1, max: 30 }), fc.constant(most));
const sometimes = <T>(it: fc.Arbitrary<T>) => fc.option(it, { nil: undefined, freq: 2 });

/** An object without its absent fields: a plan has no field that is undefined. */
function present<T extends object>(value: T): T {
  const kept = Object.entries(value).filter(([, it]) => it !== undefined);
  return Object.fromEntries(kept) as T;
}

function cycle(count: 'ends' | 'picks', most: number) {
  const turn = fc.record({ yarn: letter, n: upTo(most) });
  return fc
    .array(turn, { minLength: 2, maxLength: 5 })
    .map((turns) => turns.map(({ yarn, n }) => ({ yarn, [count]: n })));
}

/** A record of the given fields, those that are absent left out. */
function row<T>(fields: Record<string, fc.Arbitrary<unknown>>): fc.Arbitrary<T> {
  return fc.record(fields).map((it) => present(it) as T);
}

/** Lists of items that may be repeated and mirrored, down to a few levels. */
function ordersOf<T>(
  items: readonly fc.Arbitrary<T>[],
  named: Record<string, fc.Arbitrary<unknown>>,
): fc.Arbitrary<T[]> {
  const { several } = fc.letrec<{ item: T; several: T[] }>((tie) => {
    const of = tie('several');
    const repeat = { kind: fc.constant('repeat'), times: upTo(LIMITS.times), of, ...named };
    const mirror = {
      kind: fc.constant('mirror'),
      centre: fc.constantFrom('shared', 'doubled'),
      of,
      ...named,
    };
    const groups = [row<T>(repeat), row<T>(mirror)];
    return {
      several: fc.array(tie('item'), { minLength: 1, maxLength: 4 }),
      item: fc.oneof({ maxDepth: 4, depthSize: 'small' }, ...items, ...groups),
    };
  });
  return several;
}

const anyStripes: fc.Arbitrary<readonly Stripe[]> = ordersOf<Stripe>(
  [
    row({ kind: fc.constant('solid'), yarn: letter, ends: upTo(LIMITS.ends) }),
    row({
      kind: fc.constant('alternation'),
      cycle: cycle('ends', LIMITS.ends),
      turns: upTo(LIMITS.ends),
    }),
  ],
  {},
);

/** Lengths that print exactly: hundredths of a millimetre and, in inches, eighths and sixteenths. */
const hundredths = fc.oneof(
  fc.integer({ min: 10, max: 100 * LIMITS.length }).map((n) => n / 100),
  fc.integer({ min: 1, max: 200 }).map((n) => n / 2),
);
const sixteenths = fc
  .integer({ min: 1, max: 2000 })
  .map((n) => Math.round((n * 25.4 * 1e4) / 16) / 1e4);
const printedLength = { inch: fc.oneof(hundredths, sixteenths), metric: hundredths };
const anyLength = fc.double({ min: 0.1, max: LIMITS.length, noNaN: true });

function blocksWith(
  length: fc.Arbitrary<number>,
  extras: Record<string, fc.Arbitrary<unknown>>,
): fc.Arbitrary<readonly Block[]> {
  const kind = <const K extends string>(name: K) => fc.constant(name);
  const picks = fc.record({ kind: kind('picks'), picks: upTo(LIMITS.picks) });
  const turns = fc.record({ kind: kind('turns'), turns: upTo(LIMITS.picks) });
  const plain = fc.record({ kind: kind('length'), loomLength: length });
  const parity = sometimes(fc.constantFrom('even', 'odd', 'any'));
  const chosen = fc.record({ kind: kind('length'), loomLength: length, parity }).map(present);
  const solid = { kind: kind('solid'), yarn: letter, extent: fc.oneof(picks, chosen), ...extras };
  const alternation = {
    kind: kind('alternation'),
    cycle: cycle('picks', LIMITS.picks),
    path: fc.constantFrom('round', 'there-and-back'),
    opens: letter,
    closes: sometimes(letter),
    extent: fc.oneof(picks, turns, plain),
    ...extras,
  };
  const free = { kind: kind('free'), loomLength: sometimes(length), ...extras };
  const items = [row<Block>(solid), row<Block>(alternation), row<Block>(free)];
  const { name } = extras;
  return ordersOf<Block>(items, name === undefined ? {} : { name });
}

const resting = fc.constantFrom({ mode: 'float' }, { mode: 'cut' }, { mode: 'catch', every: 3 });
const withExtras = blocksWith(anyLength, {
  name: sometimes(fc.string({ minLength: 1, maxLength: 8 })),
  pickSpacing: sometimes(fc.double({ min: 0.05, max: 100, noNaN: true })),
  resting: sometimes(fc.dictionary(letter, resting, { maxKeys: 2 })),
  starts: sometimes(fc.dictionary(letter, fc.constantFrom('left', 'right'), { maxKeys: 2 })),
});

/** Text made of what orders are made of, in any order, and of anything at all. */
const soup = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 60 }),
  fc
    .array(
      fc.oneof(
        fc.constantFrom(...'()[],;.×*"\'½/-', ' ', '\n', '\u0000'),
        fc.constantFrom('turns', 'of', 'times', 'x', 'mirror', 'there', 'and', 'back', 'picks'),
        fc.constantFrom(
          'by',
          'eye',
          'in',
          'cm',
          'm',
          'from',
          'to',
          'odd',
          'middle',
          'twice',
          'with',
          'A',
          'b',
        ),
        fc.nat(300).map(String),
      ),
      { maxLength: 30 },
    )
    .map((words) => words.join(' ')),
);

describe('laws of an order as text', () => {
  it('a warp order reads back the same', () => {
    fc.assert(
      fc.property(anyStripes, (stripes) => {
        expect(parseStripes(formatStripes(stripes))).toEqual({ ok: true, value: stripes });
      }),
      { numRuns: 500 },
    );
  });

  it.each(UNITS)('a weft order of printable lengths reads back the same, in %s', (printedIn) => {
    fc.assert(
      fc.property(blocksWith(printedLength[printedIn], {}), (blocks) => {
        const text = formatBlocks(blocks, printedIn);
        expect(parseBlocks(text, printedIn)).toEqual({ ok: true, value: blocks });
      }),
      { numRuns: 300 },
    );
  });

  it('any length reads back to a hundredth of a millimetre', () => {
    fc.assert(
      fc.property(anyLength, letter, units, (loomLength, yarn, printedIn) => {
        const extent = { kind: 'length', loomLength } as const;
        const read = parseBlocks(
          formatBlocks([{ kind: 'solid', yarn, extent }], printedIn),
          'inch',
        );
        const back = read.ok ? read.value[0] : undefined;
        const length = back?.kind === 'solid' && back.extent.kind === 'length' && back.extent;
        expect(length && Math.abs(length.loomLength - loomLength)).toBeLessThanOrEqual(0.00501);
      }),
    );
  });

  it('a weft order read back over itself is untouched, whatever it holds', () => {
    fc.assert(
      fc.property(withExtras, units, (blocks, printedIn) => {
        const text = formatBlocks(blocks, printedIn);
        expect(parseBlocks(text, printedIn, blocks)).toEqual({ ok: true, value: blocks });
      }),
      { numRuns: 500 },
    );
  });

  it('what is kept from before never changes what the text says', () => {
    fc.assert(
      fc.property(withExtras, withExtras, units, (typed, before, printedIn) => {
        const text = formatBlocks(typed, printedIn);
        const read = parseBlocks(text, printedIn, before);
        expect(read.ok && formatBlocks(read.value, printedIn)).toBe(text);
      }),
      { numRuns: 300 },
    );
  });

  it('any text is an order that reads back, or a fault within the text', () => {
    fc.assert(
      fc.property(soup, units, (text, printedIn) => {
        const warp = parseStripes(text);
        const weft = parseBlocks(text, printedIn);
        if (warp.ok) expect(parseStripes(formatStripes(warp.value))).toEqual(warp);
        if (weft.ok) {
          const printed = formatBlocks(weft.value, printedIn);
          expect(parseBlocks(printed, printedIn, weft.value)).toEqual(weft);
        }
        for (const read of [warp, weft]) {
          if (read.ok) continue;
          const { code, from, until } = read.problem;
          expect(TEXT_FAULT_CODES).toContain(code);
          expect(0 <= from && from <= until && until <= text.length).toBe(true);
        }
      }),
      { numRuns: 3000 },
    );
  });
});
