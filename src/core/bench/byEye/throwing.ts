/**
 * Picks thrown by eye. A log may hold thousands of them in a row, so the course is not laid for each:
 * they are gathered, and laid when something else asks for the course.
 */
import { isCount } from '../../measure/isCount.ts';
import type { Mm } from '../../measure/length.ts';
import { mergeRuns, type Run } from '../../measure/runs.ts';
import { LIMITS } from '../../plan/limits.ts';
import type { Letter } from '../../plan/plan.ts';
import { type Course, type CourseBlock, type CoursePiece, layCourse } from '../course.ts';
import { duesOf } from '../dues.ts';
import { countByLength } from '../measuring.ts';
import { pieceAt, turnIndexAt } from '../pickAt.ts';
import type { Progress } from '../progress.ts';
import type { FreeRecord } from './record.ts';

/** Picks thrown by eye since the course was laid, the last run first. */
export interface Gathered {
  readonly run: Run<number>;
  readonly before: Gathered | null;
  /** Picks of all of them. */
  readonly picks: number;
}

/** The free part the fell lies in and that is not ended; null where the plan says what comes next. */
export function freeAtFell(course: Course, pick: number): CourseBlock | null {
  if (!course.open.includes(pick)) return null;
  return course.blocks[course.turns.block[turnIndexAt(course, pick)] ?? -1] ?? null;
}

/** So many picks of a yarn. Nothing where the plan says what comes next, or for a yarn it has not got. */
export function thrownOf(progress: Progress, letter: Letter, picks: number): Progress {
  const yarn = yarnOf(progress, letter);
  const { gathered, pick } = progress;
  if (yarn < 0 || !isCount(picks) || picks === 0 || pick + picks > LIMITS.totalPicks)
    return progress;
  if (gathered === null && freeAtFell(progress.course, pick) === null) return progress;
  const next = gather(gathered, { of: yarn, count: picks });
  return { ...progress, pick: pick + picks, gathered: next };
}

function yarnOf({ course }: Progress, letter: Letter): number {
  return course.plan.yarns.findIndex((it) => it.letter === letter);
}

function gather(before: Gathered | null, run: Run<number>): Gathered {
  const picks = (before?.picks ?? 0) + run.count;
  if (before?.run.of !== run.of) return { run, before, picks };
  return { ...before, run: { of: run.of, count: before.run.count + run.count }, picks };
}

/** The last picks taken out again, all of them still gathered. */
export function takenOutGathered(progress: Progress, picks: number): Progress {
  let { gathered } = progress;
  for (let left = picks; left > 0 && gathered !== null; ) {
    const { run, before }: Gathered = gathered;
    const taken = Math.min(left, run.count);
    const rest = { of: run.of, count: run.count - taken };
    gathered =
      rest.count === 0 ? before : { ...gathered, run: rest, picks: gathered.picks - taken };
    left -= taken;
  }
  return { ...progress, gathered, pick: progress.pick - picks, cutOff: false };
}

/** The progress with all that was gathered laid in its course. */
export function settled(progress: Progress): Progress {
  const { gathered, course, pick } = progress;
  if (gathered === null) return progress;
  const block = freeAtFell(course, pick - gathered.picks);
  if (block === null) throw new Error(`settled: no free part at pick ${pick - gathered.picks}`);
  const record = recordOf(course, block);
  const runs = mergeRuns([...record.runs, ...runsOf(gathered)]);
  return withRecord({ ...progress, gathered: null }, { ...record, runs });
}

function runsOf(gathered: Gathered): readonly Run<number>[] {
  const runs: Run<number>[] = [];
  for (let it: Gathered | null = gathered; it !== null; it = it.before) runs.push(it.run);
  return runs.reverse();
}

/** The piece the last pick thrown lies in, the first one before any; also while picks are gathered. */
export function pieceLastWoven({ course, gathered, pick }: Progress): CoursePiece {
  if (gathered !== null) return pieceAt(course, pick - gathered.picks);
  return pieceAt(course, Math.max(0, pick - 1));
}

/** What was thrown in a free part so far. */
export function recordOf(course: Course, { piece, ofPiece }: CourseBlock): FreeRecord {
  const { free } = course.adjustments;
  const known = free.find((it) => it.piece === piece && it.block === ofPiece);
  return known ?? { piece, block: ofPiece, runs: [], isEnded: false };
}

function withRecord(progress: Progress, record: FreeRecord): Progress {
  const { plan, adjustments, belief } = progress.course;
  const others = adjustments.free.filter(
    (it) => it.piece !== record.piece || it.block !== record.block,
  );
  const course = layCourse(plan, { ...adjustments, free: [...others, record] }, belief);
  return { ...progress, course, dues: duesOf(course) };
}

/** A length woven in one yarn: its picks are worked out at the beat now believed, and marked so. */
export function woveLengthOf(progress: Progress, letter: Letter, loomLength: Mm): Progress {
  const yarn = yarnOf(progress, letter);
  const block = freeAtFell(progress.course, progress.pick);
  if (yarn < 0 || block === null || !(loomLength > 0)) return progress;
  const { belief } = progress.course;
  const spacing = (block.laid.spacings[yarn] ?? 0) * (belief.yarns[yarn] ?? 1) * belief.slope;
  const from = progress.pick;
  const woven = settled(thrownOf(progress, letter, Math.round(loomLength / spacing)));
  if (woven.pick === from) return progress;
  const estimated = [...woven.estimated, { from, to: woven.pick }];
  return countByLength({ ...woven, estimated, placeUnsure: true }, from, loomLength);
}

/** The free part at the fell is done: what the plan has after it comes next. */
export function endFree(progress: Progress): Progress {
  const block = freeAtFell(progress.course, progress.pick);
  if (block === null) return progress;
  return withRecord(progress, { ...recordOf(progress.course, block), isEnded: true });
}
