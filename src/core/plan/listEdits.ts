/**
 * Changes of a list of rows, each a new list: stripes of a warp, blocks of a weft, pieces. Rows may
 * hold rows of their own (a repeat, a mirror); a `Place` says where one stands. No edit of a nested
 * list leaves an empty group behind: the last row that goes takes its group along.
 */

/** The same list with another row at index `i`. */
export function replaced<T>(list: readonly T[], i: number, row: T): readonly T[] {
  return list.map((it, k) => (k === i ? row : it));
}

/** The list without row `i`. */
export function removed<T>(list: readonly T[], i: number): readonly T[] {
  return list.filter((_, k) => k !== i);
}

/** The list with one row more, which stands at index `i` then. */
function inserted<T>(list: readonly T[], i: number, ...rows: readonly T[]): readonly T[] {
  return [...list.slice(0, i), ...rows, ...list.slice(i)];
}

/** Row `i` twice, the second one changed: its name, say. */
export function copied<T>(
  list: readonly T[],
  i: number,
  change: (row: T) => T = (row) => row,
): readonly T[] {
  return list.flatMap((it, k) => (k === i ? [it, change(it)] : [it]));
}

/** Row `i` so many places further down, or up when negative; the same list when there is no such place. */
export function moved<T>(list: readonly T[], i: number, by: number): readonly T[] {
  const row = list[i];
  if (row === undefined || i + by < 0 || i + by >= list.length) return list;
  return inserted(removed(list, i), i + by, row);
}

/** A row that may hold rows of its own. */
export interface Nest {
  readonly kind: string;
  readonly of?: readonly Nest[];
}

/** Where a row stands: its index, then its index inside that row, and so on. */
export type Place = readonly number[];

/** A list after an edit, and where the row that was edited stands now. */
export interface Edited<T> {
  readonly list: readonly T[];
  readonly place: Place;
}

/** The rows inside a group; null for a row that is no group. */
export function rowsOf<T extends Nest>(row: T): readonly T[] | null {
  // Rows of a stripe are stripes, rows of a block are blocks: `Nest` alone cannot say so.
  return (row.of as readonly T[] | undefined) ?? null;
}

/** The row at a place; nothing where there is none. */
export function rowAt<T extends Nest>(list: readonly T[], place: Place): T | undefined {
  const [i = -1, ...inner] = place;
  const row = i < 0 ? undefined : list[i];
  if (row === undefined || inner.length === 0) return row;
  return rowAt(rowsOf(row) ?? [], inner);
}

/** The list with another row at a place. */
export function replaceRow<T extends Nest>(list: readonly T[], place: Place, row: T): readonly T[] {
  return changeSiblings(list, place, (rows, i) => replaced(rows, i, row));
}

/** The list without the row at a place; a group that has nothing left goes too. */
export function removeRow<T extends Nest>(list: readonly T[], place: Place): readonly T[] {
  return changeSiblings(list, place, removed);
}

/** A row put before the one at a place, or at the end of the group when the place is just behind it. */
export function insertRow<T extends Nest>(list: readonly T[], place: Place, row: T): readonly T[] {
  return changeSiblings(list, place, (rows, i) => inserted(rows, i, row));
}

/** The row twice; the place is that of the copy, which comes second. */
export function copyRow<T extends Nest>(list: readonly T[], place: Place): Edited<T> {
  return { list: changeSiblings(list, place, (rows, i) => copied(rows, i)), place: after(place) };
}

/** The row inside a new group, which stands at its place: a repeat or a mirror of it. */
export function wrapRow<T extends Nest>(
  list: readonly T[],
  place: Place,
  wrap: (rows: readonly T[]) => T,
): readonly T[] {
  return changeSiblings(list, place, (rows, i) =>
    rows.map((row, k) => (k === i ? wrap([row]) : row)),
  );
}

/** The rows of a group in its stead; any other row stays as it is. */
export function unwrapRow<T extends Nest>(list: readonly T[], place: Place): readonly T[] {
  return changeSiblings(list, place, (rows, i) =>
    rows.flatMap((row, k) => (k === i ? (rowsOf(row) ?? [row]) : [row])),
  );
}

export type Direction = 'up' | 'down';

/**
 * The row one line further up or down as the rows stand on the screen: into a group that lies
 * there, or out of its own at either end. Null at the very top or bottom.
 */
export function moveRow<T extends Nest>(
  list: readonly T[],
  place: Place,
  direction: Direction,
): Edited<T> | null {
  const { outer, i } = split(place);
  const rows = rowsIn(list, outer);
  const [row, beside] = [rows[i], rows[i + step(direction)]];
  if (row === undefined) return null;
  if (beside === undefined) return outer.length === 0 ? null : moveOut(list, outer, row, direction);
  const inside = rowsOf(beside);
  if (inside === null) {
    return {
      list: changeSiblings(list, place, (it) => moved(it, i, step(direction))),
      place: [...outer, i + step(direction)],
    };
  }
  const joined = withRows(beside, direction === 'up' ? [...inside, row] : [row, ...inside]);
  return {
    list: changeSiblings(list, place, (it) =>
      removed(replaced(it, i + step(direction), joined), i),
    ),
    place: direction === 'up' ? [...outer, i - 1, inside.length] : [...outer, i, 0],
  };
}

/** The group at a place with the row above or below it taken in at that edge. Null where there is none. */
export function takeIn<T extends Nest>(
  list: readonly T[],
  place: Place,
  direction: Direction,
): Edited<T> | null {
  const { outer, i } = split(place);
  const beside = [...outer, i + step(direction)];
  const [group, row] = [rowAt(list, place), rowAt(list, beside)];
  if (row === undefined || group === undefined || rowsOf(group) === null) return null;
  const edited = moveRow(list, beside, direction === 'up' ? 'down' : 'up');
  return edited === null ? null : { list: edited.list, place: direction === 'up' ? beside : place };
}

/** A row at the edge of its group, put just outside it. */
function moveOut<T extends Nest>(
  list: readonly T[],
  group: Place,
  row: T,
  direction: Direction,
): Edited<T> {
  const rows = rowsIn(list, group);
  const left = direction === 'up' ? rows.slice(1) : rows.slice(0, -1);
  const edited = changeSiblings(list, group, (siblings, i) =>
    siblings.flatMap((it, k) => {
      if (k !== i) return [it];
      const rest = left.length === 0 ? [] : [withRows(it, left)];
      return direction === 'up' ? [row, ...rest] : [...rest, row];
    }),
  );
  return { list: edited, place: direction === 'down' && left.length > 0 ? after(group) : group };
}

/** The list with the rows beside a place changed, the place's own row among them. */
function changeSiblings<T extends Nest>(
  list: readonly T[],
  place: Place,
  change: (rows: readonly T[], i: number) => readonly T[],
): readonly T[] {
  const [i = -1, ...inner] = place;
  if (inner.length === 0) return change(list, i);
  const group = list[i];
  const rows = group === undefined ? null : rowsOf(group);
  if (group === undefined || rows === null) return list;
  const next = changeSiblings(rows, inner, change);
  return next.length === 0 ? removed(list, i) : replaced(list, i, withRows(group, next));
}

function withRows<T extends Nest>(group: T, of: readonly T[]): T {
  // Only `of` changes, and what goes in are rows of the same list.
  return { ...group, of } as T;
}

function rowsIn<T extends Nest>(list: readonly T[], outer: Place): readonly T[] {
  const group = rowAt(list, outer);
  return outer.length === 0 ? list : ((group && rowsOf(group)) ?? []);
}

function split(place: Place): { readonly outer: Place; readonly i: number } {
  return { outer: place.slice(0, -1), i: place.at(-1) ?? -1 };
}

function after(place: Place): Place {
  const { outer, i } = split(place);
  return [...outer, i + 1];
}

function step(direction: Direction): 1 | -1 {
  return direction === 'up' ? -1 : 1;
}
