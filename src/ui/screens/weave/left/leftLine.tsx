/** Warp and yarn left, always in sight; a tap tells the rest. */

import { isMeasured } from '../../../../core/bench/asking.ts';
import type { Reach, WarpLeft, YarnLeft } from '../../../../core/bench/left/left.ts';
import { yarnAt } from '../../../../core/bench/pickAt.ts';
import type { Progress } from '../../../../core/bench/progress.ts';
import type { Plan } from '../../../../core/plan/plan.ts';
import { isNarrow } from '../../../device/narrow.ts';
import { t } from '../../../language/t.ts';
import '../../../style/left.css';
import { standing } from '../../../standing.ts';
import type { Session } from '../../../state.ts';
import { gramsLeft, lengthLeft, shortWords } from './leftWords.ts';

interface LeftLineProps {
  readonly now: Session;
  readonly onOpen: () => void;
}

export function LeftLine({ now: { plan, progress }, onOpen }: LeftLineProps) {
  const left = standing.value;
  if (left === null) return null;
  const { course, pick } = progress;
  const inHand = pick < course.picks ? yarnAt(course, pick) : null;
  // Of the yarns only the one in hand and those that run short: there is no room for all.
  const known = left.yarns.filter(
    (it) => it.left !== null && (it.yarn === inHand || isShort(it.reach, progress)),
  );
  return (
    <button type="button" class="left-line" onClick={onOpen}>
      <WarpChip warp={left.warp} plan={plan} progress={progress} />
      {known.map((yarn) => (
        <YarnChip key={yarn.yarn} yarn={yarn} plan={plan} progress={progress} />
      ))}
    </button>
  );
}

/** A mere maybe says nothing as long as only the plan's beat is known. */
function isShort(reach: Reach | null, progress: Progress): boolean {
  if (reach === null || reach.kind === 'yes') return false;
  return reach.kind === 'no' || isMeasured(progress);
}

/** On a phone there is only room for the number of picks. */
function chipWords(reach: Reach | null, progress: Progress): string | null {
  if (reach === null || reach.kind === 'yes' || !isShort(reach, progress)) return null;
  if (!isNarrow.value) return shortWords(reach, progress.pick);
  return t('{n, plural, one {# pick} other {# picks}}{kind, select, no {!} other {?}}', {
    n: reach.picks,
    kind: reach.kind,
  });
}

interface ChipProps {
  readonly plan: Plan;
  readonly progress: Progress;
}

function WarpChip({ warp, plan, progress }: ChipProps & { readonly warp: WarpLeft }) {
  const short = chipWords(warp.reach, progress);
  return (
    <span class="left-chip" data-short={short === null ? 'yes' : warp.reach.kind}>
      <b>{t('warp')}</b> {lengthLeft(warp.left, plan.units)}
      {short === null ? null : <em>{short}</em>}
    </span>
  );
}

function YarnChip({ yarn, plan, progress }: ChipProps & { readonly yarn: YarnLeft }) {
  const it = plan.yarns[yarn.yarn];
  if (it === undefined || yarn.left === null) return null;
  const short = chipWords(yarn.reach, progress);
  return (
    <span class="left-chip" data-short={short === null ? 'yes' : yarn.reach?.kind}>
      <b class="left-letter">{it.letter}</b> {gramsLeft(yarn.left.grams, plan.units)}
      {short === null ? null : <em>{short}</em>}
    </span>
  );
}
