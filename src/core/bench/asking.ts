/** What the bench asks of the beat: how long the piece is and will be, and whether a reading can be. */
import type { Mm } from '../measure/length.ts';
import { type Doubt, doubtOf } from './beat/doubt.ts';
import { factorOf, lengthAt } from './beat/lengths.ts';
import type { Reading } from './beat/marks.ts';
import type { Believed } from './beat/quantiles.ts';
import { fellAt } from './belief.ts';
import { pinsInPiece } from './measuring.ts';
import { turnIndexAt } from './pickAt.ts';
import type { Progress } from './progress.ts';
import { rulerOf } from './ruler.ts';

/**
 * Loom length of the piece at the fell, from its start to before a pick of the same piece, woven or
 * to come, with its 90 % interval.
 */
export function lengthBefore(progress: Progress, pick: number): Believed {
  const { course, beat } = progress;
  return lengthAt(beat, rulerOf(course), { ...fellAt(course, progress.pick), pick });
}

/** Whether the beat is known from the cloth, and not only from the plan. */
export function isMeasured({ marks }: Progress): boolean {
  return marks.some((mark) => mark.kind === 'reading');
}

/** What the ruler should show for a reading at the fell, and whether what it shows can be. */
export function doubtAbout({ course, beat, pick }: Progress, reading: Reading): Doubt {
  return doubtOf(beat, rulerOf(course), fellAt(course, pick), reading);
}

/** The first and the last pick of the piece the fell lies in; a piece just finished as long as the next is not begun. */
export function pieceAtFell({ course, pick }: Progress) {
  const { piece, firstPick } = fellAt(course, pick);
  return { piece, firstPick, end: firstPick + (course.pieces[piece]?.picks ?? 0) };
}

export interface ReadingTaken {
  readonly reading: Reading;
  /** Picks of the piece in the cloth when it was taken. */
  readonly picks: number;
  /** Loom length believed there now. */
  readonly loomLength: Mm;
}

/** The readings of the piece at the fell, the last one first. */
export function readingsHere(progress: Progress): readonly ReadingTaken[] {
  const { firstPick, end } = pieceAtFell(progress);
  return progress.marks
    .flatMap((mark) => {
      if (mark.kind !== 'reading' || mark.pick <= firstPick || mark.pick > end) return [];
      const loomLength = lengthBefore(progress, mark.pick).mm;
      return [{ reading: mark.reading, picks: mark.pick - firstPick, loomLength }];
    })
    .reverse();
}

/** Picks' distance, planned and as it is now, of the yarn that comes next (or came last). */
export interface BeatHere {
  readonly planned: Mm;
  readonly now: Mm;
  readonly low: Mm;
  readonly high: Mm;
}

/**
 * How far apart picks lie at the fell (mm), planned and as believed now with the 90 % interval: of the pick
 * to come, or of the last one where the warp is woven.
 */
export function beatHere({ course, beat, pick }: Progress): BeatHere {
  const at = Math.max(0, Math.min(pick, course.picks - 1));
  const turn = turnIndexAt(course, at);
  const planned = course.turns.spacing[turn] ?? course.plan.weaving.pickSpacing;
  const { factor, low, high } = factorOf(beat, course.turns.yarn[turn] ?? 0);
  return { planned, now: planned * factor, low: planned * low, high: planned * high };
}

export interface PinPlace {
  readonly pin: string;
  /** Counted from 1 in its piece, in the order they were put in. */
  readonly number: number;
  readonly loomLength: Mm;
}

/** The pins in the piece at the fell, the last one first. */
export function pinPlaces(progress: Progress): readonly PinPlace[] {
  return pinsInPiece(progress)
    .map(({ pin, pick }, i) => ({
      pin,
      number: i + 1,
      loomLength: lengthBefore(progress, pick).mm,
    }))
    .reverse();
}
