/** What the warps of the weaver take of the yarns on the shelf, planned and woven. */
import type { LogEvent } from '../bench/events.ts';
import { type Progress, progressOf } from '../bench/progress.ts';
import type { Grams } from '../measure/mass.ts';
import type { Plan } from '../plan/plan.ts';
import { accountOf, type ShelfYarn, type YarnAccount, type YarnUse } from '../plan/shelf.ts';
import { sheetOf, type YarnSheet } from './sheet.ts';

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
 * Warp is taken off the cone when warping begins, weft with the picks of it, tails and floats spread
 * evenly over them. A warp that was cut off wants nothing more.
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
  readonly needs: readonly YarnSheet[];
  readonly now: Progress;
}

function takerOf(warp: ShelfWarp): Taker {
  const now = progressOf(warp.plan, warp.log);
  return { warp, needs: sheetOf(warp.plan).yarns, now };
}

function useOf({ warp, needs, now }: Taker, yarn: ShelfYarn): readonly YarnUse[] {
  const ofYarn = needs.filter((need) => warp.plan.yarns[need.yarn]?.shelf === yarn.id);
  if (ofYarn.length === 0) return [];
  const asWeighed = progressAt(warp, yarn.weighed.at(-1)?.at ?? '');
  const before = sumOf(ofYarn, (need) => takenBy(asWeighed, need));
  const since = sumOf(ofYarn, (need) => takenBy(now, need)) - before;
  const toCome = sumOf(ofYarn, (need) => toComeOf(now, need));
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

function takenBy(progress: Progress, need: YarnSheet): Grams {
  const ofWarp = hasBegun(progress) ? need.warp.grams : 0;
  return ofWarp + gramsPerPick(need) * picksOf(progress, need.yarn).woven;
}

function toComeOf(progress: Progress, need: YarnSheet): Grams {
  if (progress.cutOff) return 0;
  const { woven, all } = picksOf(progress, need.yarn);
  const ofWarp = hasBegun(progress) ? 0 : need.warp.grams;
  return ofWarp + gramsPerPick(need) * (all - woven);
}

function hasBegun({ warped, pick, cutOff }: Progress): boolean {
  return warped > 0 || pick > 0 || cutOff;
}

/** With its part of the tails and floats. */
function gramsPerPick({ weft }: YarnSheet): Grams {
  return weft.picks === 0 ? 0 : weft.grams / weft.picks;
}

/** Picks of a yarn on this warp as it is woven now, blocks cut short or lengthened included. */
function picksOf({ course, pick }: Progress, yarn: number) {
  const { ofYarn, firstPick } = course.stripes;
  let all = 0;
  let woven = 0;
  for (const stripe of ofYarn[yarn] ?? []) {
    const from = firstPick[stripe] ?? 0;
    const to = firstPick[stripe + 1] ?? from;
    all += to - from;
    woven += Math.min(Math.max(pick - from, 0), to - from);
  }
  return { all, woven };
}

function sumOf(needs: readonly YarnSheet[], grams: (need: YarnSheet) => Grams): Grams {
  return needs.reduce((sum, need) => sum + grams(need), 0);
}
