/** What the warps of the weaver take of the yarns on the shelf, planned and woven. */
import type { LogEvent } from '../bench/events.ts';
import { tallyWeft, type WeftTally, weftBetween } from '../bench/left/weftTally.ts';
import { yarnAccount } from '../bench/left/yarnAccount.ts';
import { type Progress, progressOf } from '../bench/progress.ts';
import type { Grams } from '../measure/mass.ts';
import { massOf } from '../measure/yarnCount.ts';
import type { Plan } from '../plan/plan.ts';
import { accountOf, type ShelfYarn, type YarnAccount, type YarnUse } from '../plan/shelf.ts';

/** A warp with its log, as far as the shelf wants to know it. */
export interface ShelfWarp {
  readonly id: string;
  readonly name: string;
  readonly plan: Plan;
  readonly log: readonly LogEvent[];
}

/**
 * The account of every yarn of the shelf, by its id. A yarn of a plan is one of the shelf where it
 * names it (`shelf`).
 *
 * Warp is taken off the cone when warping begins, weft with the picks of it, as the bench reckons it
 * (`bench/left`), weighings at the loom included. A warp that was cut off wants nothing more.
 */
export function useOfYarns(
  yarns: readonly ShelfYarn[],
  warps: readonly ShelfWarp[],
): ReadonlyMap<string, YarnAccount> {
  const takers = warps.filter(takesFromShelf).map(takerOf);
  return new Map(
    yarns.map((yarn) => {
      const uses = takers.flatMap((taker) => useOf(taker, yarn));
      return [yarn.id, accountOf(yarn, uses)];
    }),
  );
}

/** Whether any yarn of the plan is one of the shelf; a warp without one need not be loaded. */
export function takesFromShelf({ plan }: Pick<ShelfWarp, 'plan'>): boolean {
  return plan.yarns.some((yarn) => yarn.shelf !== undefined);
}

interface Taker {
  readonly warp: ShelfWarp;
  readonly now: Woven;
  /** Of each yarn index: grams of its warp, and what it really takes of a gram of planned weft. */
  readonly wound: readonly Grams[];
  readonly factors: readonly number[];
}

/** A warp at one moment of its log. */
interface Woven {
  readonly progress: Progress;
  readonly tally: WeftTally;
}

function takerOf(warp: ShelfWarp): Taker {
  const now = woven(progressOf(warp.plan, warp.log));
  const { progress, tally } = now;
  const accounts = warp.plan.yarns.map((_, i) => yarnAccount(tally, progress.pick, i, progress));
  return {
    warp,
    now,
    wound: accounts.map((it) => massOf(it.warp.mm, it.tex)),
    factors: accounts.map((it) => it.now.factor),
  };
}

function woven(progress: Progress): Woven {
  return { progress, tally: tallyWeft(progress.course) };
}

function useOf(taker: Taker, yarn: ShelfYarn): readonly YarnUse[] {
  const { warp, now } = taker;
  const own = [...warp.plan.yarns.keys()].filter((i) => warp.plan.yarns[i]?.shelf === yarn.id);
  if (own.length === 0) return [];
  const asWeighed = woven(progressAt(warp, yarn.weighed.at(-1)?.at ?? ''));
  const sumOf = (grams: (i: number) => Grams) => own.reduce((sum, i) => sum + grams(i), 0);
  const before = sumOf((i) => takenBy(asWeighed, taker, i));
  const since = sumOf((i) => takenBy(now, taker, i)) - before;
  const toCome = sumOf((i) => toComeOf(taker, i));
  return [{ warp: warp.id, name: warp.name, since, toCome }];
}

/** How far the warp was at a time; at its beginning for the empty text. */
function progressAt({ plan, log }: ShelfWarp, at: string): Progress {
  // ISO 8601 in UTC sorts as text.
  return progressOf(
    plan,
    log.filter((event) => event.at <= at),
  );
}

function takenBy({ progress, tally }: Woven, { wound, factors }: Taker, yarn: number): Grams {
  const ofWarp = hasBegun(progress) ? (wound[yarn] ?? 0) : 0;
  const weft = weftBetween(tally, yarn, 0, progress.pick);
  return ofWarp + weft.grams * (factors[yarn] ?? 1);
}

function toComeOf({ now, wound, factors }: Taker, yarn: number): Grams {
  const { progress, tally } = now;
  if (progress.cutOff) return 0;
  const ofWarp = hasBegun(progress) ? 0 : (wound[yarn] ?? 0);
  const weft = weftBetween(tally, yarn, progress.pick, progress.course.picks);
  return ofWarp + weft.grams * (factors[yarn] ?? 1);
}

function hasBegun({ warped, pick, cutOff }: Progress): boolean {
  return warped > 0 || pick > 0 || cutOff;
}
