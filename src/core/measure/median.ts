/** The middle of one or more numbers in order, of an even count the mean of the two; throws on none. */
export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const [low, high] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]];
  if (low === undefined || high === undefined) throw new RangeError('medianOf: got no values');
  return (low + high) / 2;
}
