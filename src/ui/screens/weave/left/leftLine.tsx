/** Warp and yarn left, always in sight; a tap tells the rest. */
import type { Reach, WarpLeft, YarnLeft } from '../../../../core/bench/left/left.ts';
import type { Plan } from '../../../../core/plan/plan.ts';
import { isNarrow } from '../../../device/narrow.ts';
import { t } from '../../../language/t.ts';
import '../../../style/left.css';
import { standing } from '../../../standing.ts';
import { believedPiece, facts } from '../../../state.ts';
import { gramsLeft, lengthLeft, shortWords } from './leftWords.ts';

interface LeftLineProps {
  readonly plan: Plan;
  readonly onOpen: () => void;
}

export function LeftLine({ plan, onOpen }: LeftLineProps) {
  const now = standing.value;
  if (now === null) return null;
  const inHand = facts.value?.yarn;
  // Of the yarns only the one in hand and those that run short: there is no room for all.
  const known = now.yarns.filter(
    (it) => it.left !== null && (it.yarn === inHand || isShort(it.reach)),
  );
  return (
    <button type="button" class="left-line" onClick={onOpen}>
      <WarpChip warp={now.warp} plan={plan} />
      {known.map((yarn) => (
        <YarnChip key={yarn.yarn} yarn={yarn} plan={plan} />
      ))}
    </button>
  );
}

/** A mere maybe says nothing as long as only the plan's beat is known. */
function isShort(reach: Reach | null): boolean {
  if (reach === null || reach.kind === 'yes') return false;
  return reach.kind === 'no' || believedPiece.value?.isMeasured === true;
}

/** On a phone there is only room for the number of picks. */
function chipWords(reach: Reach | null): string | null {
  if (reach === null || reach.kind === 'yes' || !isShort(reach)) return null;
  if (!isNarrow.value) return shortWords(reach, facts.value?.pick ?? 0);
  return t('{n, plural, one {# pick} other {# picks}}{kind, select, no {!} other {?}}', {
    n: reach.picks,
    kind: reach.kind,
  });
}

function WarpChip({ warp, plan }: { readonly warp: WarpLeft; readonly plan: Plan }) {
  const short = chipWords(warp.reach);
  return (
    <span class="left-chip" data-short={short === null ? 'yes' : warp.reach.kind}>
      <b>{t('warp')}</b> {lengthLeft(warp.left, plan.units)}
      {short === null ? null : <em>{short}</em>}
    </span>
  );
}

function YarnChip({ yarn, plan }: { readonly yarn: YarnLeft; readonly plan: Plan }) {
  const it = plan.yarns[yarn.yarn];
  if (it === undefined || yarn.left === null) return null;
  const short = chipWords(yarn.reach);
  return (
    <span class="left-chip" data-short={short === null ? 'yes' : yarn.reach?.kind}>
      <b class="left-letter">{it.letter}</b> {gramsLeft(yarn.left.grams, plan.units)}
      {short === null ? null : <em>{short}</em>}
    </span>
  );
}
