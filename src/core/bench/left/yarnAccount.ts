/** The account of one yarn at a pick: what lies there, how fast it goes, and the answers to what may be asked of it. */
import type { Mm } from '../../measure/length.ts';
import { lengthOf, type Tex } from '../../measure/yarnCount.ts';
import { woundEnds } from '../../plan/warpLength.ts';
import { believedLength, believedYarn } from './believed.ts';
import type { BelievedLength, BelievedYarn, TiedOn, YarnContext, YarnWeighing } from './left.ts';
import { saidSpread, scaleSpread, TEX_SPREAD, weftUseSpread } from './spreads.ts';
import { levelOf, type UseBelief, usedTo, useOver, weighed } from './useBelief.ts';
import { type WeftTally, weftBefore } from './weftTally.ts';

export interface YarnAccount {
  readonly tex: Tex;
  /** What is believed at the fell. */
  readonly now: UseBelief;
  /** Length of its warp, as wound. */
  readonly warp: BelievedLength;
  /** Planned length of weft from the fell to before a pick. */
  readonly planned: (to: number) => Mm;
  /** What a planned length of weft will really take. */
  readonly use: (planned: Mm) => BelievedYarn;
  /** What lies there; null where nobody said or weighed it. */
  readonly stock: Stock | null;
}

export interface Stock {
  readonly left: BelievedLength;
  /** What is left over by a planned length of weft; below nought: short by so much. */
  readonly spare: (planned: Mm) => BelievedLength;
}

/** The account of a yarn index before `pick` is thrown, from what the plan says lies there and every weighing. */
export function yarnAccount(
  tally: WeftTally,
  pick: number,
  yarn: number,
  context: YarnContext,
): YarnAccount {
  const tex = tally.texes[yarn] ?? 0;
  const ends = woundEnds(tally.course.plan)[yarn] ?? 0;
  const woven = weftBefore(tally, yarn, pick);
  const now = usedTo(weighedBelief(tally, yarn, ends, context), woven);
  return {
    tex,
    now,
    warp: warpOf(ends, context.tiedOn),
    planned: (to) => weftBefore(tally, yarn, to) - woven,
    use: (planned) => believedYarn(useOver(now, planned), tex),
    stock: stockOf(now),
  };
}

function stockOf(now: UseBelief): Stock | null {
  if (now.ofLeft === Number.POSITIVE_INFINITY) return null;
  return { left: levelOf(now), spare: (planned) => levelOf(usedTo(now, now.at + planned)) };
}

/** What plan and weighings say, where the last of them was taken. */
function weighedBelief(
  tally: WeftTally,
  yarn: number,
  ends: number,
  { tiedOn, weighings }: YarnContext,
): UseBelief {
  const tex = tally.texes[yarn] ?? 0;
  const own = weighings.filter((it) => it.yarn === yarn);
  const read = (belief: UseBelief, { net, pick }: YarnWeighing) => {
    const there = usedTo(belief, weftBefore(tally, yarn, pick));
    return weighed(there, lengthOf(net, tex), lengthOf(scaleSpread(net), tex));
  };
  const before = own.filter((it) => !it.wound).reduce(read, said(tally, yarn));
  const warped = wound(before, warpOf(ends, tiedOn));
  return own.filter((it) => it.wound).reduce(read, warped);
}

/** What the plan says, before the warp is wound. */
function said({ course, texes }: WeftTally, yarn: number): UseBelief {
  const tex = texes[yarn] ?? 0;
  const grams = course.plan.yarns[yarn]?.onHand ?? null;
  return {
    at: 0,
    left: lengthOf(grams ?? 0, tex),
    ofLeft: grams === null ? Number.POSITIVE_INFINITY : lengthOf(saidSpread(grams), tex) ** 2,
    factor: 1,
    ofFactor: weftUseSpread(course.plan.allowances.weftExtra) ** 2,
    shared: 0,
    misfit: null,
  };
}

/** The length of a yarn's warp, and how far its weight may be off that. */
function warpOf(ends: number, { mm, sd }: TiedOn): BelievedLength {
  return believedLength(ends * mm, ends * Math.hypot(sd, mm * TEX_SPREAD));
}

/**
 * The belief once the warp is wound off. A yarn heavier than its count takes more of itself for the
 * warp and for every pick: the two are off together, and a weighing after winding tells of both.
 */
function wound(belief: UseBelief, warp: BelievedLength): UseBelief {
  return {
    ...belief,
    left: belief.left - warp.mm,
    ofLeft: belief.ofLeft + warp.sd ** 2,
    shared: belief.shared - warp.mm * TEX_SPREAD ** 2,
  };
}
