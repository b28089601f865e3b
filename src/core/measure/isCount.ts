/** Whether it is a number things can be counted by: whole, from 0. What a log from elsewhere holds may be none. */
export function isCount(n: number): boolean {
  return Number.isSafeInteger(n) && n >= 0;
}
