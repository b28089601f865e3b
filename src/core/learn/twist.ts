/** What twisting takes of a fringe: before and after are both wanted, and what washing took besides. */
import type { Mm } from '../measure/length.ts';
import { lossOf } from '../measure/takeUp.ts';
import type { Edge, Plan } from '../plan/plan.ts';
import { type Figure, type PieceSizes, plausible, type Want } from './figure.ts';
import type { PieceReadings } from './readings.ts';
import { sizeOf } from './sizes.ts';

const MOST_TWIST = 0.5;

/** Not wanted at all where the piece has no twisted fringe. The washed fringe is the twisted one. */
export function twistOf(
  plan: Plan,
  piece: number,
  { states }: PieceReadings,
  { offLength, washedLength }: PieceSizes,
  readError: Mm,
): Figure {
  const it = plan.pieces[piece];
  if (it === undefined || ![it.beginning, it.ending].some(isTwisted)) {
    return { kind: 'not-read', wants: [] };
  }
  const before = sizeOf(states.off.fringes, readError);
  const after = sizeOf(states.washed.fringes, readError);
  if (before === null || after === null || offLength === null || washedLength === null) {
    const wants: readonly (Want | null)[] = [
      before === null ? 'off-fringe' : null,
      after === null ? 'washed-fringe' : null,
      offLength === null ? 'off-length' : null,
      washedLength === null ? 'washed-length' : null,
    ];
    return { kind: 'not-read', wants: wants.filter((want) => want !== null) };
  }
  // A fringe shrinks as its cloth does; what is missing beyond that went into the twist.
  const untwisted = before.mm * (washedLength.mm / offLength.mm);
  const share = lossOf(untwisted, after.mm);
  const error = (1 - share) * Math.hypot(before.sd / before.mm, after.sd / after.mm);
  return plausible(share, error, -0.05, MOST_TWIST);
}

/** A fringe of no length has nothing to twist, whatever its plan says. */
function isTwisted(edge: Edge): boolean {
  return edge.kind === 'hemstitch' && edge.twisted && edge.fringe > 0;
}
