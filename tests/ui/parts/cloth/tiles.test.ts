import { describe, expect, it } from 'vitest';
import { loopsOn } from '../../../../src/ui/parts/cloth/behind.ts';
import { loopsOf } from '../../../../src/ui/parts/cloth/loops.ts';
import { picksOn } from '../../../../src/ui/parts/cloth/tiles.ts';

const A = 0xff0000aa;
const B = 0xff00bb00;
const PICKS = 4;
/** As many tiles as the picks below need. */
const TILES = 8;

const woven = (colours: readonly number[], sheds = colours.map((_, pick) => pick % 2)) => ({
  colours: Uint32Array.from(colours),
  sheds: Uint8Array.from(sheds),
  from: Uint8Array.from(colours, (_, pick) => pick % 2),
  before: 0,
});

/** What each tile shows, the oldest first. */
const tilesOf = (picks: ReturnType<typeof woven>) => {
  const newest = picks.colours.length - 1;
  const loops = loopsOf(picks, 100);
  return Array.from({ length: TILES }, (_, at) => {
    const from = newest - (at + 1) * PICKS + 1;
    const here = loops.filter((it) => it.lower >= from - 1 && it.upper <= from + PICKS);
    return picksOn({ woven: picks, from }, PICKS) + loopsOn(here, newest);
  });
};

/** Tiles to be painted again from one cloth to the next. */
const changed = (before: ReturnType<typeof woven>, after: ReturnType<typeof woven>) => {
  const old = tilesOf(before);
  return tilesOf(after).flatMap((it, at) => (it === old[at] ? [] : [at]));
};

describe('the tiles of the cloth', () => {
  it('are painted again only at the top when one more pick is thrown', () => {
    const cloth = (picks: number) => woven(Array<number>(picks).fill(A));
    expect(changed(cloth(14), cloth(15))).toEqual([3]);
    expect(changed(cloth(15), cloth(14))).toEqual([3]);
  });

  it('are painted again where the pick lies on the tile above, too: its floats go on', () => {
    const cloth = (picks: number) => woven(Array<number>(picks).fill(A));
    expect(changed(cloth(16), cloth(17))).toEqual([3, 4]);
  });

  it('are painted again where a resting yarn climbs from', () => {
    const resting = [...Array<number>(8).fill(A), ...Array<number>(6).fill(B)];
    // The yarn rests on the side where its next pick starts.
    const sides = [...resting.map((_, pick) => pick % 2), 0];
    const before = { ...woven(resting), from: Uint8Array.from(sides.slice(0, -1)) };
    const after = { ...woven([...resting, A]), from: Uint8Array.from(sides) };
    expect(changed(before, after)).toEqual([1, 2, 3]);
  });

  it('are all painted again when the sheds are turned round', () => {
    const colours = Array<number>(12).fill(A);
    const turned = colours.map((_, pick) => (pick + 1) % 2);
    expect(changed(woven(colours), woven(colours, turned)).slice(0, 3)).toEqual([0, 1, 2]);
  });
});
