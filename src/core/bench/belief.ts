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

/**
 * What is believed of every length, with `pick` picks woven, where `before` was believed until now. The
 * piece before the present one is looked at again, for a reading at its end may have been a slip; those
 * further back are settled, or a long warp would be measured anew at every reading.
 */
export function beliefOf(course: Course, beat: Beat, pick: number, before: Belief): Belief {
  if (beat.marks.length === 0) return AS_PLANNED;
  const ruler = rulerOf(course);
  const yarns = course.plan.yarns.map((_, yarn) => factorOf(beat, yarn).factor);
  const measured = new Set(beat.marks.map((mark) => mark.piece));
  const present = fellAt(course, pick).piece;
  const gauges = course.pieces
    .filter((piece) => measured.has(piece.index))
    .map((piece) => {
      const isSettled = piece.index < present - 1;
      const settled = isSettled ? before.pieces.get(piece.index) : undefined;
      return [piece.index, gaugeFor(beat, ruler, piece, pick, yarns, settled)] as const;
    });
  return { yarns, pieces: new Map(gauges), slope: 1 };
}

function gaugeFor(
  beat: Beat,
  ruler: Ruler,
  piece: CoursePiece,
  pick: number,
  yarns: readonly number[],
  settled: Gauge | undefined,
): Gauge {
  const end = piece.firstPick + piece.picks;
  const marks = beat.marks
    .filter((mark) => mark.piece === piece.index && mark.pick > 0)
    .map((mark) => piece.firstPick + mark.pick);
  // A finished piece stays as it was last believed, whatever the beat does afterwards.
  const picks = [...new Set(pick >= end ? [...marks, end] : marks)].sort((a, b) => a - b);
  // As many places as then are the same places: a mark of a finished piece is never added later.
  const known = settled?.loom.length === picks.length + 1 ? settled.loom : null;
  const reckoned: Mm[] = [0];
  const loom: Mm[] = [0];
  let before = piece.firstPick;
  for (const at of picks) {
    const stretch = ruler(before, at).reduce((sum, mm, yarn) => sum + mm * (yarns[yarn] ?? 1), 0);
    if (stretch <= 0) continue;
    const place = { piece: piece.index, firstPick: piece.firstPick, pick: at };
    reckoned.push((reckoned.at(-1) ?? 0) + stretch);
    const believed = known?.[loom.length] ?? lengthAt(beat, ruler, place).mm;
    loom.push(Math.max(loom.at(-1) ?? 0, believed));
    before = at;
  }
  return { reckoned, loom, slope: 1 };
}
