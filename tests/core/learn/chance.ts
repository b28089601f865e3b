/** Chance from a seed, so that a simulated cloth can be woven again. */

/** Numbers in [0, 1) from a seed (mulberry32, public domain). */
export function chanceFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface Dice {
  /** Even between two numbers. */
  readonly between: (least: number, most: number) => number;
  /** A whole number, both ends included. */
  readonly whole: (least: number, most: number) => number;
  /** Normal about 0 (Box and Muller). */
  readonly normal: (sd: number) => number;
}

export function diceFrom(seed: number): Dice {
  const next = chanceFrom(seed);
  const between = (least: number, most: number) => least + (most - least) * next();
  return {
    between,
    whole: (least, most) => Math.floor(between(least, most + 1)),
    normal: (sd) => sd * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  };
}
