/** The beat as weavers say it, picks per inch or centimetre; stored is the distance of picks. */
import { MM_PER_INCH, type Mm, type Units } from './length.ts';

const BEAT_OVER: Readonly<Record<Units, Mm>> = { inch: MM_PER_INCH, metric: 10 };

/** Picks per inch or per centimetre, to a hundredth as they are shown: 2.54 mm apart → 10 or 3.94. */
export function beatShown(spacing: Mm, units: Units): number {
  return Math.round((BEAT_OVER[units] / spacing) * 100) / 100;
}

/** Millimetres per pick of so many picks per inch or per centimetre. */
export function spacingOf(beat: number, units: Units): Mm {
  return BEAT_OVER[units] / beat;
}
