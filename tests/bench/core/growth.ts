/**
 * How the cost of one of many grows with how many there are: the same amount of work, cut into pieces
 * of ×1 for the floor, and at ×10 or ×100 in one. Linear is a ratio of 1.
 */
import { planImport } from '../../../src/core/backup/merge/planImport.ts';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import { progressOf } from '../../../src/core/bench/progress.ts';
import { clothPlan, endWidth } from '../../../src/core/planner/clothPlan.ts';
import { type Glimpse, paintSeen } from '../../../src/core/planner/clothSeen.ts';
import { SHARP } from '../../../src/core/planner/eye.ts';
import type { Limit } from '../row.ts';
import { type PlanSize, planFile, wovenUntil } from '../samples.ts';
import { checkAndLay, largePlan, planOf } from './layPlan.ts';
import { stateOf, woven } from './mergeLogs.ts';
import type { Pair } from './pair.ts';

/** Linear, and some room for memory that lies farther off the more there is of it. */
const LINEAR = [{ kind: 'ratio', most: 1.3 }] as const;
/**
 * Two logs are compared by a set of ids. A `Set` of 100,000 alone costs ten times and more of what it
 * costs an id in sets of 1,000, for want of the processor's caches: what that leaves to be held to is
 * the row beside a `Set` of the same size.
 */
const AS_A_SET: readonly Limit[] = [];

type Times = 10 | 100;

interface Growing {
  /** What costs, such as `an event folded`. */
  readonly what: string;
  /** How many of it ×1 are. */
  readonly one: number;
  /** Work on ×`times`; the n-th of them, where they differ. */
  readonly work: (times: 1 | Times, n: number) => () => unknown;
}

function pairOf(
  { what, one, work }: Growing,
  times: Times,
  limits: readonly Limit[] = LINEAR,
): Pair {
  const many = (count: number) => (one * count).toLocaleString('en');
  return {
    what: `${what}, of ${many(times)}`,
    against: `the same, of ${many(1)}`,
    unit: 'ms',
    limits,
    prepare: () => {
      const small = Array.from({ length: times }, (_, n) => work(1, n));
      return { ours: work(times, 0), floor: () => small.map((it) => it()), times: 1 };
    },
  };
}

/** Every small log is another weaver's: what is rare is then as rare in them all as in the long one. */
const fold: Growing = {
  what: 'an event folded',
  one: 1_000,
  work: (times, n) => {
    const plan = largePlan();
    const { log } = wovenUntil(plan, (_, events) => events >= 1_000 * times, 20_250_101 + n);
    return () => progressOf(plan, log);
  },
};

const sizeAt = (times: 1 | Times): PlanSize =>
  ({
    1: { pieces: 1, picks: 600, ends: 800 },
    10: { pieces: 2, picks: 3_000, ends: 800 },
    100: { pieces: 20, picks: 3_000, ends: 800 },
  })[times];

const plan: Growing = {
  what: 'a pick of a plan checked and laid out',
  one: 600,
  work: (times) => checkAndLay(planFile(sizeAt(times))),
};

const lay: Growing = {
  what: 'a pick of a checked plan laid out',
  one: 600,
  work: (times) => {
    const checked = planOf(sizeAt(times));
    return () => layCourse(checked, NO_ADJUSTMENTS);
  },
};

/** Half of either log in common. */
const merge: Growing = {
  what: 'an event of a log brought in',
  one: 500,
  work: (times) => {
    const events = 500 * times;
    const past = woven('c', events / 2, []);
    const [into, from] = [stateOf(woven('m', events, past)), stateOf(woven('t', events, past))];
    return () => planImport(into, from);
  },
};

const PICTURE_ENDS = 400;
const PICTURE_PICKS = 100;

/** On the loom, an end a pixel wide; painted without a screen. */
const picture: Growing = {
  what: 'a crossing of two threads painted',
  one: PICTURE_ENDS * PICTURE_PICKS,
  work: (times) => {
    const picks = PICTURE_PICKS * times;
    const laid = layCourse(planOf({ pieces: 1, picks, ends: PICTURE_ENDS }), NO_ADJUSTMENTS);
    const cloth = clothPlan(laid, { state: 'loom' });
    const scale = 1 / endWidth(cloth);
    const height = Math.ceil(cloth.height * scale);
    const view: Glimpse = { left: 0, top: 0, scale, width: PICTURE_ENDS, height };
    const pixels = new Uint32Array(view.width * view.height);
    return () => paintSeen(cloth, view, { blur: SHARP, ground: 0xffffffff }, pixels);
  },
};

export const GROWTH = {
  fold10: pairOf(fold, 10),
  fold100: pairOf(fold, 100),
  plan10: pairOf(plan, 10),
  plan100: pairOf(plan, 100),
  lay10: pairOf(lay, 10),
  lay100: pairOf(lay, 100),
  merge10: pairOf(merge, 10),
  merge100: pairOf(merge, 100, AS_A_SET),
  picture10: pairOf(picture, 10),
  picture100: pairOf(picture, 100),
} as const;
