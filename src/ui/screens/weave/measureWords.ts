/** What is said while measuring the fell. */
import { type BeatHere, pinPlaces } from '../../../core/bench/asking.ts';
import type { Reading } from '../../../core/bench/beat/marks.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import { beatShown } from '../../../core/measure/beat.ts';
import type { Mm, Units } from '../../../core/measure/length.ts';
import { length } from '../../format.ts';

/** What the ruler should show, and how well that is known. */
export function readsBetween(
  { mm, low, high }: { readonly mm: Mm; readonly low: Mm; readonly high: Mm },
  units: Units,
): string {
  const far = (it: Mm) => length(Math.max(0, it), units);
  return `Expected: ${far(mm)}, most likely between ${far(low)} and ${far(high)}.`;
}

/** Where a reading was measured from, and how. */
export function fromWords(progress: Progress, { from, tension }: Reading): string {
  const eased = tension === 'eased' ? ', eased' : '';
  if (from.kind === 'start') return `from the start${eased}`;
  const pin = pinPlaces(progress).find((it) => it.pin === from.pin);
  return `from pin ${pin?.number ?? ''}${eased}`;
}

/** Picks per inch or centimetre now and in the plan. */
export function beatWords({ planned, now, low, high }: BeatHere, units: Units): string {
  const per = (spacing: Mm) => String(beatShown(spacing, units));
  const unit = units === 'inch' ? 'picks an inch' : 'picks a centimetre';
  return `The beat is ${per(now)} ${unit} (between ${per(high)} and ${per(low)}); planned were ${per(planned)}.`;
}
