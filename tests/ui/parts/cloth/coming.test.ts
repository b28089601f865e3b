import { describe, expect, it } from 'vitest';
import { runsOf } from '../../../../src/ui/parts/cloth/coming.ts';

const runs = (colours: readonly number[], letters?: readonly string[]) =>
  runsOf({ colours: Uint32Array.from(colours), letters }).map(({ first, picks, letter }) => [
    first,
    picks,
    letter,
  ]);

describe('the picks to come', () => {
  it('are marked where the colour changes', () => {
    expect(runs([7, 7, 8, 7])).toEqual([
      [0, 2, ''],
      [2, 1, ''],
      [3, 1, ''],
    ]);
  });

  it('are marked where the yarn changes, though its colour does not', () => {
    expect(runs([7, 7, 7], ['A', 'C', 'C'])).toEqual([
      [0, 1, 'A'],
      [1, 2, 'C'],
    ]);
  });

  it('are none at the end of a piece', () => {
    expect(runs([])).toEqual([]);
  });
});
