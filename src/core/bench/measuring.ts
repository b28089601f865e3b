/** Pins, readings and lengths counted: how the beat becomes known, and what follows from it. */
import type { Mm } from '../measure/length.ts';
import type { BlockPicks } from './adjustments.ts';
import { aimedAnew } from './aim.ts';
import {
  type Beat,
  measured,
  PLANNED,
  pinned,
  startBeat,
  takenBackTo,
  woveByLength,
} from './beat/beat.ts';
import type { Reading } from './beat/marks.ts';
import { beliefOf, fellAt } from './belief.ts';
import { type Course, layCourse } from './course.ts';
import { duesOf } from './dues.ts';
import type { ReadFrom } from './events.ts';
import type { Progress } from './progress.ts';
import { rulerOf } from './ruler.ts';

/** What was measured, in the order it was; enough to reckon the beat anew without one of them. */
export type Mark = { readonly pick: number } & (
  | { readonly kind: 'pin'; readonly pin: string }
  | { readonly kind: 'reading'; readonly reading: Reading }
  | { readonly kind: 'length'; readonly from: number; readonly loomLength: Mm }
);

/** What the last reading changed: said once, with a way back. */
export interface AimReport {
  readonly reading: string;
  readonly pick: number;
  /** The blocks that changed, with the picks they had before. */
  readonly before: readonly BlockPicks[];
}

/** A pin goes into the cloth at the fell. A name used before, or a fell before the first pick: nothing. */
export function pinHere(progress: Progress, pin: string): Progress {
  const { pick, marks } = progress;
  if (pick === 0 || marks.some((it) => it.kind === 'pin' && it.pin === pin)) return progress;
  return marked(progress, { kind: 'pin', pick, pin });
}

/**
 * The fell was measured. Lengths and beat follow, and the blocks that keep their length are aimed
 * anew. Nothing happens for a length below nought, a pin that is not in this piece, or a reading
 * that is already there.
 */
export function measureHere(progress: Progress, reading: Reading): Progress {
  const { pick, marks } = progress;
  const again = marks.some((it) => it.kind === 'reading' && it.reading.reading === reading.reading);
  if (pick === 0 || again || !Number.isFinite(reading.mm) || reading.mm < 0) return progress;
  if (!pinIsHere(progress, reading.from)) return progress;
  return aimedBy(marked(progress, { kind: 'reading', pick, reading }), reading.reading);
}

function pinIsHere(progress: Progress, from: ReadFrom): boolean {
  return from.kind === 'start' || pinsInPiece(progress).some((it) => it.pin === from.pin);
}

/** The pins in the piece at the fell, the last one last. */
export function pinsInPiece({ course, marks, pick }: Progress) {
  const { firstPick } = fellAt(course, pick);
  return marks.flatMap((it) =>
    it.kind === 'pin' && it.pick > firstPick && it.pick <= pick
      ? [{ pin: it.pin, pick: it.pick }]
      : [],
  );
}

/** A stretch counted by its length: the cloth grew by it, and its picks are worked out. */
export function countByLength(progress: Progress, from: number, loomLength: Mm): Progress {
  return marked(progress, { kind: 'length', pick: progress.pick, from, loomLength });
}

/** A reading turned out wrong: lengths and beat are what they were without it, and so is the aim. */
export function strike(progress: Progress, reading: string): Progress {
  const marks = progress.marks.filter(
    (it) => it.kind !== 'reading' || it.reading.reading !== reading,
  );
  if (marks.length === progress.marks.length) return progress;
  const beat = marks.reduce((sum, mark) => withMark(progress, sum, mark), newBeat(progress.course));
  return aimedBy(believing({ ...progress, marks, beat }), reading);
}

/** Picks were taken out of the cloth: what was measured beyond `pick` went with it. */
export function forgetBeyond(progress: Progress, pick: number): Progress {
  const { course, marks } = progress;
  if (marks.every((it) => it.pick <= pick)) return progress;
  const beat = takenBackTo(progress.beat, rulerOf(course), fellAt(course, pick));
  const left = marks.filter((it) => it.pick <= pick);
  return believing({ ...progress, beat, marks: left, pick: Math.min(progress.pick, pick) });
}

/** The blocks keep the picks they had before the last reading gave them others. */
export function refuseAim(progress: Progress, reading: string): Progress {
  const { aim, course, pick } = progress;
  if (aim === null || aim.reading !== reading) return progress;
  const back = aim.before.filter((it) => {
    const block = course.blocks[(course.pieces[it.piece]?.firstBlock ?? -1) + it.block];
    if (block?.piece !== it.piece || block.firstPick + block.picks <= pick) return false;
    return it.picks >= pick - block.firstPick;
  });
  const adjustments = {
    ...course.adjustments,
    blocks: [...course.adjustments.blocks, ...back.map(({ aimed, ...it }) => it)],
  };
  return { ...believing(progress, adjustments), aim: null };
}

/** The beat of a course before anything is woven or measured: the plan alone speaks. */
export function newBeat(course: Course): Beat {
  return startBeat(course.plan.yarns.length, PLANNED);
}

function marked(progress: Progress, mark: Mark): Progress {
  const beat = withMark(progress, progress.beat, mark);
  return believing({ ...progress, beat, marks: [...progress.marks, mark] });
}

function withMark({ course }: Progress, beat: Beat, mark: Mark): Beat {
  const ruler = rulerOf(course);
  const place = fellAt(course, mark.pick);
  switch (mark.kind) {
    case 'pin':
      return pinned(beat, ruler, place, mark.pin);
    case 'reading':
      return measured(beat, ruler, place, mark.reading);
    case 'length':
      return woveByLength(beat, ruler, place, mark.from, mark.loomLength);
  }
}

/** The course laid again with the lengths believed now. */
function believing(progress: Progress, adjustments = progress.course.adjustments): Progress {
  const { course, beat, pick } = progress;
  const next = layCourse(course.plan, adjustments, beliefOf(course, beat, pick, course.belief));
  return { ...progress, course: next, dues: duesOf(next) };
}

/** Blocks that keep their length aimed at the beat now known; what that changed is kept to be said. */
function aimedBy(progress: Progress, reading: string): Progress {
  const { course, pick, keeping } = progress;
  const changes = aimedAnew(course, pick, keeping);
  if (changes.length === 0) return { ...progress, aim: null };
  const before = changes.map((it) => {
    const block = course.blocks[(course.pieces[it.piece]?.firstBlock ?? 0) + it.block];
    return { ...it, picks: block?.picks ?? it.picks };
  });
  return { ...withBlocks(progress, changes), aim: { reading, pick, before } };
}

/** Aimed at the beat as far as it was ever measured; before that the plan stands as it is. */
export function aimWhereMeasured(progress: Progress): Progress {
  if (progress.marks.every((it) => it.kind !== 'reading')) return progress;
  const changes = aimedAnew(progress.course, progress.pick, progress.keeping);
  return withBlocks(progress, changes);
}

/** The course with other numbers of picks in some blocks. */
export function withBlocks(progress: Progress, changes: readonly BlockPicks[]): Progress {
  if (changes.length === 0) return progress;
  const { adjustments } = progress.course;
  return believing(progress, { ...adjustments, blocks: [...adjustments.blocks, ...changes] });
}
