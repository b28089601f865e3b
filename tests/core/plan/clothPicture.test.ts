import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Weave } from '../../../src/core/plan/clothPicture.ts';
import {
  clothCells,
  liftsOf,
  pixelOf,
  plainLifts,
  shedLiftingFirstEnd,
  turnedOver,
  warpUp,
} from '../../../src/core/plan/clothPicture.ts';

const A = pixelOf('#2f5d50');
const B = pixelOf('#f1e9d8');
const C = pixelOf('#b4552d');
const YARNS: Readonly<Record<string, number>> = { A, B, C };

const colours = (letters: string) => Uint32Array.from(letters, (letter) => YARNS[letter] ?? 0);

/** `length` elements of a repeating order, taken from element `phase` on. */
const ordered = (order: string, phase: number, length: number) =>
  Array.from({ length }, (_, at) => order[(at + phase) % order.length]).join('');

/** Plain = `10/01`: the first pick goes under the first end. */
const plain = (warp: string, weft: string): Weave => ({
  ends: colours(warp),
  picks: colours(weft),
  sheds: Uint8Array.from(weft, (_, pick) => pick % 2),
  lifts: plainLifts(warp.length, 0),
});

const rowsOf = (cells: ArrayLike<unknown>, width: number) =>
  Array.from({ length: cells.length / width }, (_, row) =>
    Array.from({ length: width }, (_, at) => cells[row * width + at]),
  );

const spelled = (weave: Weave) =>
  rowsOf(clothCells(weave), weave.ends.length)
    .map((row) => row.map((cell) => 'ABC'[[A, B, C].indexOf(Number(cell))] ?? '?').join(''))
    .join('/');

const phased = (order: string, p: number, e: number) =>
  plain(ordered(order, e, order.length), ordered(order, p, order.length));

/** Every cloth that two by two shifts of the first can be, as spelled. */
const shiftsOf = (cloth: string) => {
  const rows = cloth.split('/');
  const turn = (text: string, by: number) => text.slice(by) + text.slice(0, by);
  return rows.flatMap((_, down) =>
    rows.map((_, right) =>
      [...rows.slice(down), ...rows.slice(0, down)].map((row) => turn(row, right)).join('/'),
    ),
  );
};

const mirrored = (cloth: string) =>
  cloth
    .split('/')
    .map((row) => [...row].reverse().join(''))
    .join('/');

/** Any weave of up to four sheds, with two colours of yarn or three. */
const anyWeave = (letters: string): fc.Arbitrary<Weave> =>
  fc
    .record({
      warp: fc.array(fc.constantFrom(...letters), { minLength: 1, maxLength: 12 }),
      weft: fc.array(fc.constantFrom(...letters), { minLength: 1, maxLength: 12 }),
      shedCount: fc.integer({ min: 1, max: 4 }),
    })
    .chain(({ warp, weft, shedCount }) =>
      fc.record({
        ends: fc.constant(colours(warp.join(''))),
        picks: fc.constant(colours(weft.join(''))),
        sheds: fc
          .array(fc.nat(shedCount - 1), { minLength: weft.length, maxLength: weft.length })
          .map((sheds) => Uint8Array.from(sheds)),
        lifts: fc.array(
          fc
            .array(fc.constantFrom(0, 1), { minLength: warp.length, maxLength: warp.length })
            .map((lift) => Uint8Array.from(lift)),
          { minLength: shedCount, maxLength: shedCount },
        ),
      }),
    );

const swapped = (yarns: Uint32Array) => yarns.map((yarn) => (yarn === A ? B : A));
const lcm = (a: number, b: number): number => {
  for (let n = Math.max(a, b); ; n++) if (n % a === 0 && n % b === 0) return n;
};

// Check values, "Colour and weave": they follow from the definition `10/01` and the two phases.
describe('colour and weave in plain weave', () => {
  it.each([
    [0, 0, 'AA/BB'],
    [0, 1, 'BA/BA'],
    [1, 0, 'AB/AB'],
    [1, 1, 'BB/AA'],
  ])('warp A B, weft A B, phase (%i, %i) is %s', (p, e, cloth) => {
    expect(spelled(phased('AB', p, e))).toBe(cloth);
  });

  it.each([
    [0, 0, 'AABA/AAAB/ABBB/BABB'],
    [0, 1, 'AABA/ABAA/ABBB/BBBA'],
    [1, 0, 'AABA/BABB/ABBB/AAAB'],
    [2, 2, 'BBAB/BBBA/BAAA/ABAA'],
  ])('warp A A B B, weft A A B B, phase (%i, %i) is %s', (p, e, cloth) => {
    expect(spelled(phased('AABB', p, e))).toBe(cloth);
  });

  const tooth = spelled(phased('AABB', 0, 0));
  const other = spelled(phased('AABB', 0, 1));
  const phases = Array.from({ length: 16 }, (_, n) => [Math.floor(n / 4), n % 4] as const);

  it.each(phases)('two and two in phase (%i, %i) is the hound’s tooth or its mirror', (p, e) => {
    const cloth = spelled(phased('AABB', p, e));
    expect([...shiftsOf(tooth), ...shiftsOf(mirrored(tooth))]).toContain(cloth);
    expect([...cloth].filter((cell) => cell === 'A')).toHaveLength(8);
  });

  it('two and two has two patterns that no shift turns into each other', () => {
    expect(shiftsOf(tooth)).not.toContain(other);
    expect(shiftsOf(mirrored(tooth))).toContain(other);
  });

  it('two and two repeats on four ends and four picks and on no fewer', () => {
    const rows = tooth.split('/');
    expect(new Set(rows).size).toBe(4);
    expect(new Set(shiftsOf(tooth).slice(0, 4)).size).toBe(4);
  });
});

describe('a cloth', () => {
  it('is one colour when warp and weft are', () => {
    fc.assert(fc.property(anyWeave('A'), (weave) => clothCells(weave).every((cell) => cell === A)));
  });

  it('has the colour of end and pick where the two agree, and else of the one on top', () => {
    fc.assert(
      fc.property(anyWeave('ABC'), (weave) => {
        const width = weave.ends.length;
        clothCells(weave).forEach((cell, at) => {
          const end = weave.ends[at % width];
          const pick = weave.picks[Math.floor(at / width)];
          const up = weave.lifts[weave.sheds[Math.floor(at / width)] ?? 0]?.[at % width] === 1;
          expect(cell).toBe(end === pick || up ? end : pick);
        });
      }),
    );
  });

  it('changes every cell when two colours change places', () => {
    fc.assert(
      fc.property(anyWeave('AB'), (weave) => {
        const other = { ...weave, ends: swapped(weave.ends), picks: swapped(weave.picks) };
        expect(clothCells(other)).toEqual(swapped(clothCells(weave)));
      }),
    );
  });

  it('repeats after the least common multiple of weave and order, each way', () => {
    const order = fc.array(fc.constantFrom('A', 'B', 'C'), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(order, order, fc.nat(5), fc.nat(5), (warp, weft, p, e) => {
        const across = lcm(2, warp.length);
        const down = lcm(2, weft.length);
        const ends = ordered(warp.join(''), e, 2 * across);
        const picks = ordered(weft.join(''), p, 2 * down);
        const rows = spelled(plain(ends, picks)).split('/');
        expect(rows.slice(down)).toEqual(rows.slice(0, down));
        for (const row of rows) expect(row.slice(across)).toBe(row.slice(0, across));
      }),
    );
  });

  it('shows on its back, left to right, the threads its face hides', () => {
    fc.assert(
      fc.property(anyWeave('ABC'), (weave) => {
        const width = weave.ends.length;
        const face = rowsOf(clothCells(weave), width);
        const back = rowsOf(clothCells(turnedOver(weave)), width);
        back.forEach((row, pick) => {
          row.forEach((cell, at) => {
            const end = weave.ends[width - 1 - at];
            const shown = face[pick]?.[width - 1 - at];
            const both = [end, weave.picks[pick]].sort();
            expect([shown, cell].sort()).toEqual(both);
          });
        });
        expect(turnedOver(turnedOver(weave))).toEqual(weave);
      }),
    );
  });

  it('is up or down as its sheds lift', () => {
    fc.assert(
      fc.property(anyWeave('AB'), (weave) => {
        const told = { ...weave, ends: weave.ends.map(() => A), picks: weave.picks.map(() => B) };
        expect([...warpUp(weave)]).toEqual([...clothCells(told)].map((c) => (c === A ? 1 : 0)));
      }),
    );
  });

  it('is drawn over an older one when told where', () => {
    const weave = plain('AAB', 'ABC');
    const out = new Uint32Array(9).fill(1);
    expect(clothCells(weave, out)).toBe(out);
    expect(out).toEqual(clothCells(weave));
  });

  it('of no picks or no ends has no cells', () => {
    expect(clothCells(plain('AB', ''))).toHaveLength(0);
    expect(clothCells(plain('', 'AB'))).toHaveLength(0);
  });
});

describe('a weave that does not hold together is refused', () => {
  const weave = plain('AB', 'AB');
  it.each([
    ['a pick without a shed', { ...weave, sheds: new Uint8Array(1) }, 'got 1 sheds'],
    ['a shed nobody lifts', { ...weave, sheds: new Uint8Array([0, 2]) }, 'got shed 2'],
    ['a shed of other ends', { ...weave, lifts: plainLifts(3, 0) }, 'got a shed of 3 ends'],
  ])('%s', (_, broken, words) => {
    expect(() => clothCells(broken)).toThrow(words);
    expect(() => warpUp(broken)).toThrow(words);
  });

  it('cells of another size', () => {
    expect(() => clothCells(weave, new Uint32Array(3))).toThrow('got room for 3 cells, wanted 4');
  });
});

describe('the sheds of plain weave', () => {
  it('lift every other end, the first one in the shed told', () => {
    expect(plainLifts(5, 0).map((lift) => lift.join(''))).toEqual(['10101', '01010']);
    expect(plainLifts(4, 1).map((lift) => lift.join(''))).toEqual(['0101', '1010']);
  });

  // Common practice, no source.
  it.each([
    ['rigid-heddle', 'hole', 0],
    ['rigid-heddle', 'slot', 1],
    ['shaft', undefined, 0],
  ] as const)('on a %s with end 1 in a %s, shed %i lifts end 1', (loom, firstEnd, shed) => {
    expect(shedLiftingFirstEnd(loom, firstEnd)).toBe(shed);
  });
});

describe('the colour of a pixel', () => {
  it.each([
    ['#010203', 0xff030201],
    ['#ff0000', 0xff0000ff],
    ['#0000FF', 0xffff0000],
    ['#ffffff', 0xffffffff],
  ])('%s is red, green, blue and alpha byte by byte', (colour, pixel) => {
    expect(pixelOf(colour)).toBe(pixel);
    const bytes = new Uint8Array(Uint32Array.of(pixelOf(colour)).buffer);
    expect(`#${Buffer.from(bytes.subarray(0, 3)).toString('hex')}`).toBe(colour.toLowerCase());
    expect(bytes[3]).toBe(255);
  });

  it.each(['red', '#fff', '#12345g', '#1234567', ''])('%s is refused', (colour) => {
    expect(() => pixelOf(colour)).toThrow('wanted #rrggbb');
  });
});

describe('doubled ends', () => {
  const loom = (kind: 'rigid-heddle' | 'shaft', endsPerDent: number) => ({
    kind,
    dents: { count: 10, per: 'inch' } as const,
    endsPerDent,
    weavingWidth: 600,
    frontTieOn: 0,
    backWaste: 0,
    weavingDepth: 100,
  });

  it('that lie in one slot or hole of a rigid heddle move as one', () => {
    const [up, down] = liftsOf(loom('rigid-heddle', 2), 'hole', 6);
    expect([...up]).toEqual([1, 1, 0, 0, 1, 1]);
    expect([...down]).toEqual([0, 0, 1, 1, 0, 0]);
  });

  it('that share a dent of a reed still go one by one through the shafts', () => {
    const [odd] = liftsOf(loom('shaft', 2), undefined, 4);
    expect([...odd]).toEqual([1, 0, 1, 0]);
  });
});
