/** What is said while measuring the fell. */
import { type BeatHere, pinPlaces } from '../../../core/bench/asking.ts';
import type { Reading } from '../../../core/bench/beat/marks.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import { beatShown } from '../../../core/measure/beat.ts';
import type { Mm, Units } from '../../../core/measure/length.ts';
import { inOurNumbers, length } from '../../format.ts';
import { t } from '../../language/t.ts';

/** What the ruler should show, and how well that is known. */
export function readsBetween(
  { mm, low, high }: { readonly mm: Mm; readonly low: Mm; readonly high: Mm },
  units: Units,
): string {
  const far = (it: Mm) => length(Math.max(0, it), units);
  return t('Expected: {length}, most likely between {low} and {high}.', {
    length: far(mm),
    low: far(low),
    high: far(high),
  });
}

/** Where a reading was measured from, and how. */
export function fromWords(progress: Progress, { from, tension }: Reading): string {
  if (from.kind === 'start')
    return t('from the start{tension, select, eased {, eased} other {}}', { tension });
  const pin = pinPlaces(progress).find((it) => it.pin === from.pin);
  const number = pin?.number ?? '';
  return t('from pin {number}{tension, select, eased {, eased} other {}}', { number, tension });
}

/** Picks per inch or centimetre now and in the plan. */
export function beatWords({ planned, now, low, high }: BeatHere, units: Units): string {
  const per = (spacing: Mm) => inOurNumbers(String(beatShown(spacing, units)));
  return t(
    'The beat is {now} {units, select, inch {picks an inch} other {picks a centimetre}} (between {low} and {high}); planned were {planned}.',
    { now: per(now), units, low: per(high), high: per(low), planned: per(planned) },
  );
}
