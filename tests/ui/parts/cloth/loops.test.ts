import { describe, expect, it } from 'vitest';
import { loopsOf } from '../../../../src/ui/parts/cloth/loops.ts';

const A = 0xff0000aa;
const B = 0xff00bb00;
const GAP = 0;
const LEFT = 0;
const RIGHT = 1;

/** Every yarn's first pick from the right, and from side to side after that. */
const thrown = (colours: readonly number[]) => {
  const side = new Map<number, number>();
  const from = colours.map((colour) => {
    const next = 1 - (side.get(colour) ?? LEFT);
    side.set(colour, next);
    return next;
  });
  return {
    colours: Uint32Array.from(colours),
    sheds: new Uint8Array(colours.length),
    from: Uint8Array.from(from),
    before: 0,
  };
};

const joined = (colours: readonly number[], seen = 100) =>
  loopsOf(thrown(colours), seen).map(({ upper, lower, side }) => [upper, lower, side]);

describe('the selvedges', () => {
  it('show one yarn turning on alternate sides', () => {
    expect(joined([A, A, A])).toEqual([
      [0, 1, RIGHT],
      [1, 2, LEFT],
    ]);
  });

  it('show each yarn of two and two turning on one side and resting on the other', () => {
    expect(joined([A, A, B, B, A, A])).toEqual([
      [0, 1, LEFT],
      [1, 4, RIGHT],
      [2, 3, LEFT],
      [4, 5, LEFT],
    ]);
  });

  it('show no loop where a yarn starts on another side than it left', () => {
    const woven = { ...thrown([A, A]), from: Uint8Array.of(RIGHT, RIGHT) };
    expect(loopsOf(woven, 10)).toEqual([]);
  });

  it('carry nothing over a gap', () => {
    expect(joined([A, GAP, A])).toEqual([]);
    expect(joined([A, GAP, GAP, A])).toEqual([]);
  });

  it('take a yarn that rests for more than eight picks to be cut', () => {
    expect(
      joined([A, ...Array(7).fill(B), A]).some(([upper, lower]) => upper === 0 && lower === 8),
    ).toBe(true);
    expect(joined([A, ...Array(8).fill(B), A]).some(([upper]) => upper === 0)).toBe(false);
  });

  it('are looked for only as far down as can be seen', () => {
    expect(joined([A, A, A, A, A], 2)).toHaveLength(2);
  });

  it('show no loops when nobody knows the sides', () => {
    expect(loopsOf({ ...thrown([A, A]), from: undefined }, 10)).toEqual([]);
  });
});
