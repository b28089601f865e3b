/** Sett advice by Ashenhurst's rule for the warp of a plan in plain weave (design §4). */
import type { Use } from '../../measure/sett.ts';
import {
  diameterOf,
  PLAIN,
  shareLeft,
  TOUCHING_CONSTANTS,
  USES,
  WORKING_SHARES,
  workingSett,
} from '../../measure/sett.ts';
import { texOf } from '../../measure/yarnCount.ts';
import { endsPerMm } from '../../plan/geometry.ts';
import type { Plan, Yarn } from '../../plan/plan.ts';
import type { PerMm, SettAdvice, SettVerdict, UseAdvice } from '../sheet.ts';

/**
 * Where the reed or heddle falls between open and too close. The sett is that in the reed, as
 * working setts are given in the trade.
 */
export function settAdvice(plan: Plan, endsOfYarn: readonly number[]): SettAdvice {
  const touching = touchingOf(plan, endsOfYarn);
  const closest = touching * shareLeft(PLAIN);
  const sett = endsPerMm(plan.loom);
  const ratio = sett / closest;
  const shares = USES.map((use) => WORKING_SHARES[use]);
  const inWarp = plan.yarns.flatMap((it, yarn) =>
    (endsOfYarn[yarn] ?? 0) > 0 ? [{ yarn, k: TOUCHING_CONSTANTS[fibreOf(it)] }] : [],
  );
  return {
    touching,
    closest,
    sett,
    ratio,
    uses: USES.map((use) => useAdvice(use, closest, ratio)),
    verdict: verdictOf(
      ratio,
      Math.min(...shares.map((it) => it.from)),
      Math.max(...shares.map((it) => it.to)),
    ),
    constants: inWarp,
  };
}

/** A yarn whose fibre was not said is taken as `other`. */
function fibreOf(yarn: Yarn) {
  return yarn.fibre ?? 'other';
}

/** Ends laid side by side fill the width of all their thicknesses, so thicknesses are averaged. */
function touchingOf(plan: Plan, endsOfYarn: readonly number[]): PerMm {
  let ends = 0;
  let width = 0;
  for (const [i, yarn] of plan.yarns.entries()) {
    const own = endsOfYarn[i] ?? 0;
    ends += own;
    width += own * diameterOf(texOf(yarn.count), fibreOf(yarn));
  }
  return ends / width;
}

function useAdvice(use: Use, closest: PerMm, ratio: number): UseAdvice {
  const { from, to } = WORKING_SHARES[use];
  return {
    use,
    ...workingSett(closest, use),
    shareFrom: from,
    shareTo: to,
    verdict: verdictOf(ratio, from, to),
  };
}

function verdictOf(ratio: number, from: number, to: number): SettVerdict {
  if (ratio > 1) return 'too-close';
  if (ratio > to) return 'close';
  return ratio < from ? 'open' : 'within';
}
