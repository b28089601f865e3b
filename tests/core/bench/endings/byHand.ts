/** Courses read pick by pick, and readings compared one by one: slow, and with nothing of the endings' own code. */
import type { Course } from '../../../../src/core/bench/course.ts';
import type { Sameness } from '../../../../src/core/bench/endings/ending.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';

export interface OnePick {
  readonly yarn: number;
  readonly spacing: number;
  /** Of the piece, counted from 0, hems included. */
  readonly block: number;
  readonly isHem: boolean;
  readonly endsTurn: boolean;
}

/** Every pick of one piece of a course. */
export function picksOfPiece(course: Course, piece: number): readonly OnePick[] {
  const picks: OnePick[] = [];
  for (const block of course.blocks) {
    if (block.piece !== piece) continue;
    for (let turn = block.firstTurn; turn < block.firstTurn + block.turns; turn++) {
      const yarn = course.turns.yarn[turn] ?? 0;
      const end = course.turns.firstPick[turn + 1] ?? 0;
      for (let pick = course.turns.firstPick[turn] ?? 0; pick < end; pick++) {
        picks.push({
          yarn,
          spacing: block.laid.spacings[yarn] ?? 0,
          block: block.ofPiece,
          isHem: block.laid.block === null,
          endsTurn: pick === end - 1,
        });
      }
    }
  }
  return picks;
}

/** Planned length of a piece before each of its picks, and the whole at the end. */
export function lengthsByHand(course: Course, piece: number): readonly number[] {
  let length = 0;
  const lengths = [0];
  for (const pick of picksOfPiece(course, piece)) {
    length += pick.spacing;
    lengths.push(length);
  }
  return lengths;
}

/** Planned length of a piece between two picks of the course. */
export function lengthByHand(course: Course, piece: number, from: number, to: number): number {
  const first = course.pieces[piece]?.firstPick ?? 0;
  const lengths = lengthsByHand(course, piece);
  return (lengths[to - first] ?? Number.NaN) - (lengths[from - first] ?? Number.NaN);
}

export interface SeenPick {
  readonly yarn: number;
  readonly mm: number;
}

/** Whether picks are the same from both ends: pick by pick, else stripe by stripe as the eye has them. */
export function sameByHand(plan: Plan, picks: readonly SeenPick[]): Sameness {
  const letters = picks.map((pick) => pick.yarn).join();
  if (
    letters ===
    picks
      .map((pick) => pick.yarn)
      .reverse()
      .join()
  )
    return 'exact';
  const stripes: { colour: string; mm: number }[] = [];
  for (const { yarn, mm } of picks) {
    const colour = plan.yarns[yarn]?.colour.toLowerCase() ?? '';
    const last = stripes.at(-1);
    if (last?.colour === colour) last.mm += mm;
    else stripes.push({ colour, mm });
  }
  const back = stripes.toReversed();
  const isLike = stripes.every((it, i) => {
    const other = back[i] ?? { colour: '', mm: 0 };
    const wide = Math.max(it.mm, other.mm);
    const most = Math.max(wide * 0.05, 1);
    return it.colour === other.colour && Math.abs(it.mm - other.mm) <= most + 1e-6;
  });
  return isLike ? 'toTheEye' : 'no';
}
