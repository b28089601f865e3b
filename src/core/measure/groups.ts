/** Ends shared into groups: `groups` of them, of which `larger` have one end more than `size`. */
export interface Groups {
  readonly groups: number;
  readonly larger: number;
  readonly size: number;
}

/**
 * Shares ends into hemstitch groups of `wished` ends. What is over goes one by one to groups
 * made one larger: 393 in sixes → 65 groups, three of them of seven. Where there are more ends over
 * than groups, one group more is made and all are nearly even: 11 in sixes → 5 and 6.
 */
export function shareIntoGroups(ends: number, wished: number): Groups {
  if (!Number.isSafeInteger(ends) || ends < 0 || !Number.isSafeInteger(wished) || wished < 1) {
    throw new RangeError(`got ${ends} ends in groups of ${wished}, wanted whole numbers`);
  }
  if (ends === 0) return { groups: 0, larger: 0, size: 0 };
  const whole = Math.floor(ends / wished);
  const groups = ends % wished > whole ? whole + 1 : whole;
  return { groups, larger: ends % groups, size: Math.floor(ends / groups) };
}
