import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  copied,
  copyRow,
  insertRow,
  moved,
  moveRow,
  type Nest,
  type Place,
  removed,
  removeRow,
  replaced,
  replaceRow,
  rowAt,
  rowsOf,
  takeIn,
  unwrapRow,
  wrapRow,
} from '../../../src/core/plan/listEdits.ts';

/** Rows by their names; a group is a list: `['a', ['b', 'c']]`. */
type Sketch = readonly (string | Sketch)[];

const rowsFrom = (sketch: Sketch): readonly Nest[] => sketch.map(rowFrom);
const rowFrom = (it: string | Sketch): Nest =>
  typeof it === 'string' ? { kind: it } : { kind: 'group', of: rowsFrom(it) };
const sketchOf = (rows: readonly Nest[]): Sketch =>
  rows.map((row) => {
    const inside = rowsOf(row);
    return inside === null ? row.kind : sketchOf(inside);
  });

describe('edits of a list', () => {
  it('replace, remove, copy and move one row', () => {
    expect(replaced(['a', 'b'], 1, 'c')).toEqual(['a', 'c']);
    expect(removed(['a', 'b'], 0)).toEqual(['b']);
    expect(copied(['a', 'b'], 0, (row) => `${row}2`)).toEqual(['a', 'a2', 'b']);
    expect(copied(['a', 'b'], 1)).toEqual(['a', 'b', 'b']);
    expect(moved(['a', 'b', 'c'], 0, 1)).toEqual(['b', 'a', 'c']);
    expect(moved(['a', 'b', 'c'], 2, -2)).toEqual(['c', 'a', 'b']);
  });

  it('a row that cannot move stays', () => {
    expect(moved(['a', 'b'], 0, -1)).toEqual(['a', 'b']);
    expect(moved(['a', 'b'], 1, 1)).toEqual(['a', 'b']);
    expect(moved(['a', 'b'], 5, -4)).toEqual(['a', 'b']);
  });
});

const NESTED: Sketch = ['a', ['b', ['c', 'd']], 'e'];
const nested = rowsFrom(NESTED);

describe('edits of rows that hold rows', () => {
  it.each<[Place, string | undefined]>([
    [[0], 'a'],
    [[1, 0], 'b'],
    [[1, 1, 1], 'd'],
    [[1], 'group'],
    [[3], undefined],
    [[0, 0], undefined],
    [[], undefined],
    [[-1], undefined],
  ])('at %j stands %s', (place, kind) => {
    expect(rowAt(nested, place)?.kind).toBe(kind);
  });

  it.each<[string, readonly Nest[], Sketch]>([
    ['replaced', replaceRow(nested, [1, 1, 0], { kind: 'x' }), ['a', ['b', ['x', 'd']], 'e']],
    ['removed', removeRow(nested, [1, 0]), ['a', [['c', 'd']], 'e']],
    ['put first', insertRow(nested, [1, 0], { kind: 'x' }), ['a', ['x', 'b', ['c', 'd']], 'e']],
    ['put last', insertRow(nested, [1, 2], { kind: 'x' }), ['a', ['b', ['c', 'd'], 'x'], 'e']],
    [
      'wrapped',
      wrapRow(nested, [0], (of) => ({ kind: 'group', of })),
      [['a'], NESTED[1] ?? '', 'e'],
    ],
    ['unwrapped', unwrapRow(nested, [1]), ['a', 'b', ['c', 'd'], 'e']],
    ['unwrapped though no group', unwrapRow(nested, [0]), NESTED],
    ['changed where there is nothing', replaceRow(nested, [0, 3], { kind: 'x' }), NESTED],
  ])('a row is %s', (_, rows, sketch) => {
    expect(sketchOf(rows)).toEqual(sketch);
  });

  it('the last row of a group takes the group along, and that the next', () => {
    expect(sketchOf(removeRow(rowsFrom(['a', [['b']]]), [1, 0, 0]))).toEqual(['a']);
  });

  it('a copy comes right behind', () => {
    const { list, place } = copyRow(nested, [1, 0]);
    expect(sketchOf(list)).toEqual(['a', ['b', 'b', ['c', 'd']], 'e']);
    expect(place).toEqual([1, 1]);
  });

  it.each<[Place, 'up' | 'down', Sketch, Place]>([
    [[0], 'down', [['a', 'b', ['c', 'd']], 'e'], [0, 0]],
    [[2], 'up', ['a', ['b', ['c', 'd'], 'e']], [1, 2]],
    [[1], 'up', [['b', ['c', 'd']], 'a', 'e'], [0]],
    [[1], 'down', ['a', 'e', ['b', ['c', 'd']]], [2]],
    [[1, 0], 'up', ['a', 'b', [['c', 'd']], 'e'], [1]],
    [[1, 0], 'down', ['a', [['b', 'c', 'd']], 'e'], [1, 0, 0]],
    [[1, 1, 1], 'down', ['a', ['b', ['c'], 'd'], 'e'], [1, 2]],
    [[1, 1, 0], 'down', ['a', ['b', ['d', 'c']], 'e'], [1, 1, 1]],
  ])('from %j one line %s', (place, direction, sketch, to) => {
    const edited = moveRow(nested, place, direction);
    expect(edited && sketchOf(edited.list)).toEqual(sketch);
    expect(edited?.place).toEqual(to);
  });

  it('moving the only row of a group out ends the group', () => {
    const rows = rowsFrom(['a', ['b'], 'c']);
    const up = moveRow(rows, [1, 0], 'up');
    const down = moveRow(rows, [1, 0], 'down');
    expect(up && [sketchOf(up.list), up.place]).toEqual([['a', 'b', 'c'], [1]]);
    expect(down && [sketchOf(down.list), down.place]).toEqual([['a', 'b', 'c'], [1]]);
  });

  it('nothing moves beyond top and bottom', () => {
    expect(moveRow(nested, [0], 'up')).toBeNull();
    expect(moveRow(nested, [2], 'down')).toBeNull();
    expect(moveRow(nested, [7], 'up')).toBeNull();
  });

  it('a group takes in the row beside it', () => {
    const above = takeIn(nested, [1], 'up');
    expect(above && [sketchOf(above.list), above.place]).toEqual([
      [['a', 'b', ['c', 'd']], 'e'],
      [0],
    ]);
    const below = takeIn(nested, [1], 'down');
    expect(below && [sketchOf(below.list), below.place]).toEqual([
      ['a', ['b', ['c', 'd'], 'e']],
      [1],
    ]);
    expect(takeIn(nested, [1, 1], 'down')).toBeNull();
    expect(takeIn(nested, [0], 'down')).toBeNull();
  });
});

const rows: fc.Arbitrary<readonly Nest[]> = fc.letrec<{ rows: Nest[]; row: Nest }>((tie) => ({
  rows: fc.array(tie('row'), { minLength: 1, maxLength: 4 }),
  row: fc.oneof(
    { maxDepth: 3 },
    fc.constantFrom('a', 'b', 'c').map((kind) => ({ kind })),
    tie('rows').map((of) => ({ kind: 'group', of: of as Nest[] })),
  ),
})).rows;

function placesIn(list: readonly Nest[], outer: Place = []): readonly Place[] {
  return list.flatMap((row, i) => {
    const place = [...outer, i];
    return [place, ...placesIn(rowsOf(row) ?? [], place)];
  });
}

const leaves = (list: readonly Nest[]): readonly string[] =>
  list.flatMap((row) => {
    const inside = rowsOf(row);
    return inside === null ? [row.kind] : leaves(inside);
  });

const rowsAndPlace = rows.chain((list) =>
  fc.constantFrom(...placesIn(list)).map((place) => ({ list, place })),
);

describe('laws of rows that hold rows', () => {
  it('wrapping and taking apart gives the same rows', () => {
    fc.assert(
      fc.property(rowsAndPlace, ({ list, place }) => {
        const wrapped = wrapRow(list, place, (of) => ({ kind: 'group', of }));
        expect(unwrapRow(wrapped, place)).toEqual(list);
      }),
    );
  });

  it('a move loses nothing, leaves no empty group, says where the row went, and can be taken back', () => {
    fc.assert(
      fc.property(rowsAndPlace, fc.constantFrom('up', 'down'), ({ list, place }, direction) => {
        const row = rowAt(list, place);
        const edited = moveRow(list, place, direction);
        if (edited === null) return;
        expect([...leaves(edited.list)].sort()).toEqual([...leaves(list)].sort());
        expect(rowAt(edited.list, edited.place)).toEqual(row);
        const groups = placesIn(edited.list).map((it) =>
          rowsOf(rowAt(edited.list, it) ?? { kind: '' }),
        );
        expect(groups.every((of) => of === null || of.length > 0)).toBe(true);
        const sameGroups = placesIn(edited.list).length === placesIn(list).length;
        const back = moveRow(edited.list, edited.place, direction === 'up' ? 'down' : 'up');
        if (sameGroups) expect(back).toEqual({ list, place });
      }),
      { numRuns: 500 },
    );
  });

  it('removing what was copied gives the same rows', () => {
    fc.assert(
      fc.property(rowsAndPlace, ({ list, place }) => {
        const copy = copyRow(list, place);
        expect(removeRow(copy.list, copy.place)).toEqual(list);
      }),
    );
  });
});
