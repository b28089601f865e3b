/** The search behind the fits: how far each lever, or several together, must move to reach a size. */
import type { Runs } from '../../measure/runs.ts';
import { mergeRuns, readsSameBothWays } from '../../measure/runs.ts';
import type { Lever, Levers, Node } from './levers.ts';
import { moved, valueAt } from './levers.ts';

export const WAYS = ['repeat', 'alone', 'pair', 'in-proportion', 'repeat-in-proportion'] as const;
/**
 * How a fit is reached: a repeat more or fewer times; one stripe or block alone; the two of a
 * mirrored pair alike; all of them in proportion; or a repeat first and the rest in proportion.
 */
export type Way = (typeof WAYS)[number];

/** What is aimed at: an order, how to measure it, and the size wanted in the same measure. */
export interface Aim<N extends Node> {
  readonly order: readonly N[];
  readonly levers: Levers;
  /** Grows with every lever, or stays. */
  readonly sizeOf: (order: readonly N[]) => number;
  readonly runsOf: (order: readonly N[]) => Runs<unknown>;
  readonly target: number;
}

export interface Shift {
  readonly lever: Lever;
  readonly steps: number;
}

export interface Trial<N extends Node> {
  readonly way: Way;
  readonly shifts: readonly Shift[];
  readonly order: readonly N[];
  readonly size: number;
  /** The distance between the two sizes next to the target that this way reaches. */
  readonly step: number;
  readonly cost: number;
  readonly mirrored: boolean;
  /** Names the stripes as seen: two trials of one name are one cloth. */
  readonly seen: string;
}

/** Every way that comes nearer to the target than the order is, in no particular order. */
export function trialsOf<N extends Node>(aim: Aim<N>): readonly Trial<N>[] {
  const { repeats, leaves } = aim.levers;
  const groups = groupsOf(aim);
  const single = groups.length === leaves.length ? [] : leaves.map((leaf) => [leaf]);
  const families = [
    ...repeats.map(repeatFamily),
    ...[...groups, ...single].map(groupFamily),
    proportionFamily(stretchable(groups)),
  ];
  const trials = families.map((family) => trialOf(aim, family, aim.order));
  const mixed = repeats.flatMap((repeat) => mixedTrials(aim, repeat, stretchable(groups)));
  const now = Math.abs(aim.sizeOf(aim.order) - aim.target);
  return [...trials, ...mixed]
    .filter((it) => it !== null)
    .filter((it) => Math.abs(it.size - aim.target) < now - TOLERANCE)
    .filter((it) => isModest(it, groups));
}

/** Sizes are sums of exact ones and stray by less than this. */
const TOLERANCE = 1e-6;

/** A family of orders in one parameter, a whole number; 0 is the order as it is. */
interface Family {
  readonly way: Way;
  readonly least: number;
  readonly most: number;
  readonly shifts: (n: number) => readonly Shift[];
  /** Where to begin looking, from the size now and the size wanted. */
  readonly guess?: (size: number, target: number) => number;
  /** Levers that move as one: their change counts once. */
  readonly together: readonly (readonly Lever[])[];
}

function repeatFamily(lever: Lever): Family {
  const { least, most } = lever;
  const shifts = (steps: number) => [{ lever, steps }];
  return { way: 'repeat', least, most, shifts, together: [[lever]] };
}

function groupFamily(group: readonly Lever[]): Family {
  return {
    way: group.length > 1 ? 'pair' : 'alone',
    least: Math.max(...group.map((lever) => lever.least)),
    most: Math.min(...group.map((lever) => lever.most)),
    shifts: (steps) => group.map((lever) => ({ lever, steps })),
    together: [group],
  };
}

/** Steps of the factor that all sizes are multiplied by: finer than any lever's own steps. */
const GRAIN = 8192;

function proportionFamily(groups: readonly (readonly Lever[])[]): Family {
  const levers = groups.flat();
  const stepsAt = (lever: Lever, n: number) => {
    const steps = Math.round(((n / GRAIN) * lever.size) / lever.stepSize);
    return Math.min(Math.max(steps, lever.least), lever.most);
  };
  return {
    way: 'in-proportion',
    least: -GRAIN,
    most: 100 * GRAIN,
    shifts: (n) => levers.map((lever) => ({ lever, steps: stepsAt(lever, n) })),
    guess: (size, target) => Math.round((target / size - 1) * GRAIN),
    together: groups,
  };
}

/** Blocks planned by length are there to be stretched; where there is none, all are. */
function stretchable(groups: readonly (readonly Lever[])[]): readonly (readonly Lever[])[] {
  const byLength = groups.filter((group) => group[0]?.kind === 'loomLength');
  return byLength.length > 0 ? byLength : groups;
}

/** A repeat to just below and just above the target, the rest made up in proportion. */
function mixedTrials<N extends Node>(
  aim: Aim<N>,
  repeat: Lever,
  groups: readonly (readonly Lever[])[],
): readonly (Trial<N> | null)[] {
  const family = repeatFamily(repeat);
  const found = searchIn(aim, family, aim.order);
  if (found === null) return [];
  return [found.below, found.above].map((steps) => {
    if (steps === 0) return null;
    const rest = trialOf(aim, proportionFamily(groups), moved(aim.order, repeat, steps));
    if (rest === null) return null;
    const shift = { lever: repeat, steps };
    return {
      ...rest,
      way: 'repeat-in-proportion',
      shifts: [shift, ...rest.shifts],
      cost: rest.cost + changeOf(shift),
    };
  });
}

function trialOf<N extends Node>(aim: Aim<N>, family: Family, from: readonly N[]): Trial<N> | null {
  const found = searchIn(aim, family, from);
  if (found === null || found.nearest === 0) return null;
  const shifts = family.shifts(found.nearest).filter(({ steps }) => steps !== 0);
  if (shifts.length === 0) return null;
  const order = applied(from, shifts);
  const runs = mergeRuns(aim.runsOf(order));
  return {
    way: family.way,
    shifts,
    order,
    size: found.size,
    step: found.step,
    cost: costOf(shifts, family.together),
    mirrored: readsSameBothWays(runs),
    seen: runs.map(({ of, count }) => `${of}${count}`).join(' '),
  };
}

function applied<N extends Node>(order: readonly N[], shifts: readonly Shift[]): readonly N[] {
  return shifts.reduce((sum, { lever, steps }) => moved(sum, lever, steps), order);
}

/** Relative change of a shift; what moves together counts once. */
function changeOf({ lever, steps }: Shift): number {
  return Math.abs(valueAt(lever, steps) - lever.from) / lever.from;
}

function costOf(shifts: readonly Shift[], together: readonly (readonly Lever[])[]): number {
  return together.reduce((sum, group) => {
    const one = shifts.find(({ lever }) => group.includes(lever));
    return one === undefined ? sum : sum + changeOf(one);
  }, 0);
}

/** A stripe or block may grow to twice its size by itself; more makes another design of it. */
const MOST_ALONE = 1;

function isModest<N extends Node>(
  { way, cost }: Trial<N>,
  groups: readonly (readonly Lever[])[],
): boolean {
  return (way !== 'alone' && way !== 'pair') || groups.length === 1 || cost <= MOST_ALONE;
}

interface Found {
  readonly nearest: number;
  readonly size: number;
  /** The two parameters that the target lies between. */
  readonly below: number;
  readonly above: number;
  readonly step: number;
}

/** Looks for the parameter nearest the target; null when the family does not reach that far. */
function searchIn<N extends Node>(
  { sizeOf, target }: Aim<N>,
  family: Family,
  from: readonly N[],
): Found | null {
  // In proportion many parameters round to the same steps: each order is measured once.
  const known = new Map<string, number>();
  const size = (n: number) => {
    const shifts = family.shifts(n);
    const key = shifts.map(({ steps }) => steps).join();
    const found = known.get(key) ?? sizeOf(applied(from, shifts));
    known.set(key, found);
    return found;
  };
  const bracket = bracketOf(size, target, family);
  if (bracket === null) return null;
  const { below, above } = bracket;
  const [under, over] = [target - size(below), size(above) - target];
  const step = size(above) - size(below);
  // A tie goes to the smaller change.
  const isBelow = under < over || (under === over && Math.abs(below) < Math.abs(above));
  const nearest = isBelow ? below : above;
  return { nearest, size: size(nearest), below, above, step };
}

/** Two neighbours with `size(below) ≤ target < size(above)`. */
function bracketOf(
  size: (n: number) => number,
  target: number,
  family: Family,
): { readonly below: number; readonly above: number } | null {
  const { least, most } = family;
  const fits = (n: number) => size(n) <= target + TOLERANCE;
  if (least >= most || !fits(least) || fits(most)) return null;
  let below = Math.min(Math.max(guessOf(size, target, family), least), most - 1);
  let above = below + 1;
  for (let stride = 1; !fits(below); stride *= 2) {
    above = below;
    below = Math.max(least, below - stride);
  }
  for (let stride = 1; fits(above); stride *= 2) {
    below = above;
    above = Math.min(most, above + stride);
  }
  while (above - below > 1) {
    const middle = Math.floor((below + above) / 2);
    if (fits(middle)) below = middle;
    else above = middle;
  }
  return { below, above };
}

function guessOf(size: (n: number) => number, target: number, family: Family): number {
  const now = size(0);
  if (family.guess !== undefined) return family.guess(now, target);
  const way = target > now ? 1 : -1;
  if (way < family.least || way > family.most) return 0;
  const slope = (size(way) - now) * way;
  return slope > 0 ? Math.floor((target - now) / slope + TOLERANCE) : 0;
}

/**
 * Leaves that move together: in a mirrored order the two that face each other, when they are alike.
 * A leaf inside a mirror of the plan is a pair already.
 */
function groupsOf<N extends Node>(aim: Aim<N>): readonly (readonly Lever[])[] {
  const { leaves } = aim.levers;
  if (!readsSameBothWays(mergeRuns(aim.runsOf(aim.order)))) return leaves.map((leaf) => [leaf]);
  const addresses = leafOrder(aim.order, []);
  const partner = new Map<string, string>();
  for (const [i, address] of addresses.entries()) {
    const facing = addresses[addresses.length - 1 - i];
    if (facing !== undefined && !partner.has(address)) partner.set(address, facing);
  }
  const of = (lever: Lever) => lever.address.join('.');
  return leaves.flatMap((leaf, i) => {
    const at = leaves.findIndex((other) => of(other) === partner.get(of(leaf)));
    const other = leaves[at];
    const isPair = other !== undefined && partner.get(of(other)) === of(leaf) && alike(leaf, other);
    if (!isPair || at === i) return [[leaf]];
    return at > i ? [[leaf, other]] : [];
  });
}

function alike(one: Lever, other: Lever): boolean {
  const same = (a: number, b: number) => Math.abs(a - b) < TOLERANCE;
  return (
    one.kind === other.kind &&
    same(one.laid, other.laid) &&
    same(one.unit, other.unit) &&
    same(one.stepSize, other.stepSize)
  );
}

/** Addresses of solids and alternations in the order they are met; enough of them to see who faces whom. */
function leafOrder(order: readonly Node[], base: readonly number[]): readonly string[] {
  return order.flatMap((node, i): readonly string[] => {
    const address = [...base, i];
    if (!('of' in node)) return [address.join('.')];
    const inner = leafOrder(node.of, address);
    // An odd number of times round faces as one does, an even number as two do.
    if (node.kind === 'repeat') return node.times % 2 === 1 ? inner : [...inner, ...inner];
    const back = inner.toReversed();
    return [...inner, ...(node.centre === 'shared' ? back.slice(1) : back)];
  });
}
