/**
 * Index of the last entry of an ascending list (of `count` entries) that is ≤ `value`; −1 before the
 * first. Where the entries before `from` are known to be ≤ `value` they are not looked at.
 */
export function lastAtOrBefore(
  starts: ArrayLike<number>,
  count: number,
  value: number,
  from = 0,
): number {
  let low = from;
  let high = count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((starts[middle] ?? 0) <= value) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** The greatest k up to `most` with `fits(k)`, which holds up to some k and never after; 0 when it never does. */
export function mostThatFits(most: number, fits: (k: number) => boolean): number {
  let [low, high] = [0, most];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (fits(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}
