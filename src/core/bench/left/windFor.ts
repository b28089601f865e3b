/** What to wind on the shuttle for the next block or piece (design §4), and how many bobbins that is. */
import type { Mm } from '../../measure/length.ts';
import { medianOf } from '../../measure/median.ts';
import type { Course } from '../course.ts';
import type { BobbinChange, BobbinNeed, WindFor, WindSpan, YarnContext } from './left.ts';
import { type WeftTally, weftBefore } from './weftTally.ts';
import { type YarnAccount, yarnAccount } from './yarnAccount.ts';

/** What to wind for the next block or piece that begins at `pick` or later and takes the yarn; null without one. */
export function windFor(
  tally: WeftTally,
  pick: number,
  yarn: number,
  span: WindSpan,
  context: YarnContext,
): WindFor | null {
  const takes = (from: number, to: number) => plannedBetween(tally, yarn, from, to) > 0;
  const next = spansOf(tally.course, span).find(
    (it) => it.firstPick >= pick && takes(it.firstPick, it.firstPick + it.picks),
  );
  if (next === undefined) return null;
  const [from, to] = [next.firstPick, next.firstPick + next.picks];
  const planned = plannedBetween(tally, yarn, from, to);
  const account = yarnAccount(tally, pick, yarn, context);
  const bobbins = bobbinsFor(tally, account, yarn, planned, context.bobbins);
  return { yarn, of: next.index, from, to, bobbins, ...account.use(planned) };
}

type Span = { readonly index: number; readonly firstPick: number; readonly picks: number };

function spansOf(course: Course, span: WindSpan): readonly Span[] {
  return span === 'block' ? course.blocks : course.pieces;
}

function plannedBetween(tally: WeftTally, yarn: number, from: number, to: number): Mm {
  return weftBefore(tally, yarn, to) - weftBefore(tally, yarn, from);
}

/** Sums of exact lengths stray by less than this share; it must not make a bobbin more. */
const TOLERANCE = 1e-9;

function bobbinsFor(
  tally: WeftTally,
  { now }: YarnAccount,
  yarn: number,
  planned: Mm,
  changes: readonly BobbinChange[],
): BobbinNeed | null {
  const holds = plannedOnBobbin(tally, yarn, changes);
  if (holds === null) return null;
  return {
    holds: now.factor * holds,
    picks: Math.round(holds / tally.perPick),
    count: Math.ceil(planned / holds - TOLERANCE),
  };
}

/**
 * The middle of what the bobbins held that were woven from change to change. The first one may have
 * been on the shuttle from before and counts only as long as there is no other.
 */
function plannedOnBobbin(
  tally: WeftTally,
  yarn: number,
  changes: readonly BobbinChange[],
): Mm | null {
  const at = changes.filter((it) => it.yarn === yarn).map((it) => weftBefore(tally, yarn, it.pick));
  const held = at.map((it, i) => it - (at[i - 1] ?? 0)).filter((it) => it > 0);
  return held.length < 2 ? (held[0] ?? null) : medianOf(held.slice(1));
}
