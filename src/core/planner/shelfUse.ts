/** What the warps of the weaver take of the yarns on the shelf, planned and woven. */
import type { LogEvent } from '../bench/events.ts';
import { tiedOnAsPlanned } from '../bench/left/warpLeft.ts';
import { tallyWeft, type WeftTally, weftBetween } from '../bench/left/weftTally.ts';
import { type Progress, progressOf } from '../bench/progress.ts';
import type { Grams } from '../measure/mass.ts';
import { massOf } from '../measure/yarnCount.ts';
import type { Plan } from '../plan/plan.ts';
import { accountOf, type ShelfYarn, type YarnAccount, type YarnUse } from '../plan/shelf.ts';
import { woundEnds } from '../plan/warpLength.ts';

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
 * Warp is taken off the cone when warping begins, weft with the picks of it (`weftTally.ts`). A warp
 * that was cut off wants nothing more.
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
  /** Warp of each yarn index, as it is wound. */
  readonly wound: readonly Grams[];
  readonly now: Woven;
}

/** A warp at one moment of its log. */
interface Woven {
  readonly progress: Progress;
  readonly tally: WeftTally;
}

function takerOf(warp: ShelfWarp): Taker {
  const { mm } = tiedOnAsPlanned(warp.plan);
  const now = woven(progressOf(warp.plan, warp.log));
  const wound = woundEnds(warp.plan).map((ends, i) => massOf(ends * mm, now.tally.texes[i] ?? 0));
  return { warp, wound, now };
}

function woven(progress: Progress): Woven {
  return { progress, tally: tallyWeft(progress.course) };
}

function useOf({ warp, wound, now }: Taker, yarn: ShelfYarn): readonly YarnUse[] {
  const own = [...warp.plan.yarns.keys()].filter((i) => warp.plan.yarns[i]?.shelf === yarn.id);
  if (own.length === 0) return [];
  const asWeighed = woven(progressAt(warp, yarn.weighed.at(-1)?.at ?? ''));
  const sumOf = (grams: (i: number) => Grams) => own.reduce((sum, i) => sum + grams(i), 0);
  const before = sumOf((i) => takenBy(asWeighed, wound, i));
  const since = sumOf((i) => takenBy(now, wound, i)) - before;
  const toCome = sumOf((i) => toComeOf(now, wound, i));
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

function takenBy({ progress, tally }: Woven, wound: readonly Grams[], yarn: number): Grams {
  const ofWarp = hasBegun(progress) ? (wound[yarn] ?? 0) : 0;
  return ofWarp + weftBetween(tally, yarn, 0, progress.pick).grams;
}

function toComeOf({ progress, tally }: Woven, wound: readonly Grams[], yarn: number): Grams {
  if (progress.cutOff) return 0;
  const ofWarp = hasBegun(progress) ? 0 : (wound[yarn] ?? 0);
  return ofWarp + weftBetween(tally, yarn, progress.pick, progress.course.picks).grams;
}

function hasBegun({ warped, pick, cutOff }: Progress): boolean {
  return warped > 0 || pick > 0 || cutOff;
}
