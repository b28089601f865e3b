/** Index of the last entry of an ascending list (of `count` entries) that is ≤ `value`; −1 before the first. */
export function lastAtOrBefore(starts: ArrayLike<number>, count: number, value: number): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((starts[middle] ?? 0) <= value) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
