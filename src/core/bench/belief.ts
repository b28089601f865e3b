/** What the beat tells about every length of the course: one gauge a measured piece. */
import type { Mm } from '../measure/length.ts';
import type { Beat } from './beat/beat.ts';
import { factorOf, lengthAt } from './beat/lengths.ts';
import type { Place, Ruler } from './beat/marks.ts';
import type { Course, CoursePiece } from './course.ts';
import { AS_PLANNED, type Belief, type Gauge } from './gauge.ts';
import { pieceAt } from './pickAt.ts';
import { rulerOf } from './ruler.ts';

/**
 * Where the fell lies before `pick`. Between two pieces it is the end of the one woven, for that is
 * what the weaver can measure.
 */
export function fellAt(course: Course, pick: number): Place {
  const piece = pieceAt(course, Math.max(0, Math.min(pick, course.picks) - 1));
  return { piece: piece.index, firstPick: piece.firstPick, pick };
}

/** What is believed of every length, with `pick` picks woven. */
export function beliefOf(course: Course, beat: Beat, pick: number): Belief {
  if (beat.marks.length === 0) return AS_PLANNED;
  const ruler = rulerOf(course);
  const yarns = course.plan.yarns.map((_, yarn) => factorOf(beat, yarn).factor);
  const measured = new Set(beat.marks.map((mark) => mark.piece));
  const gauges = course.pieces
    .filter((piece) => measured.has(piece.index))
    .map((piece) => [piece.index, gaugeFor(beat, ruler, piece, pick, yarns)] as const);
  return { yarns, pieces: new Map(gauges), slope: 1 };
}

function gaugeFor(
  beat: Beat,
  ruler: Ruler,
  piece: CoursePiece,
  pick: number,
  yarns: readonly number[],
): Gauge {
  const end = piece.firstPick + piece.picks;
  const marks = beat.marks
    .filter((mark) => mark.piece === piece.index && mark.pick > 0)
    .map((mark) => piece.firstPick + mark.pick);
  // A finished piece stays as it was last believed, whatever the beat does afterwards.
  const picks = [...new Set(pick >= end ? [...marks, end] : marks)].sort((a, b) => a - b);
  const reckoned: Mm[] = [0];
  const loom: Mm[] = [0];
  let before = piece.firstPick;
  for (const at of picks) {
    const stretch = ruler(before, at).reduce((sum, mm, yarn) => sum + mm * (yarns[yarn] ?? 1), 0);
    if (stretch <= 0) continue;
    const place = { piece: piece.index, firstPick: piece.firstPick, pick: at };
    reckoned.push((reckoned.at(-1) ?? 0) + stretch);
    loom.push(Math.max(loom.at(-1) ?? 0, lengthAt(beat, ruler, place).mm));
    before = at;
  }
  return { reckoned, loom, slope: 1 };
}
