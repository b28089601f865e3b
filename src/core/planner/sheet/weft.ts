/** The weft of every piece, yarn by yarn: picks, carried floats, tails. One pass over the stripes. */
import type { Course, CoursePiece } from '../../bench/course.ts';
import { ENTRIES, REST_KINDS } from '../../bench/stripes.ts';
import { weftPerPick } from '../../measure/clothState.ts';
import type { Mm } from '../../measure/length.ts';
import type { Tex } from '../../measure/yarnCount.ts';
import { massOf, texOf } from '../../measure/yarnCount.ts';
import { reedWidth, sharesOf } from '../../plan/geometry.ts';
import type { Plan } from '../../plan/plan.ts';
import type { WeftUse } from '../sheet.ts';

/**
 * What is tucked in or trimmed where a yarn starts and where it is cut: about a hand's width, 10 cm.
 * Common practice, no source.
 */
export const TUCKED_TAIL: Mm = 100;

const NEW = ENTRIES.indexOf('new');
const FLOAT = REST_KINDS.indexOf('float');
const CATCH = REST_KINDS.indexOf('catch');

/** What every pick of a plan shares; reckoned once, for the width takes a walk over all stripes. */
export interface WeftLengths {
  /** Weft in one pick. */
  readonly perPick: Mm;
  /** Tail left for hemstitching. */
  readonly stitching: Mm;
}

export function weftLengths(plan: Plan): WeftLengths {
  const reed = reedWidth(plan);
  return {
    perPick: weftPerPick(reed, sharesOf(plan)),
    stitching: plan.weaving.tailWidths * reed,
  };
}

/** Weft of each yarn index in one piece; it does not depend on the other pieces of the warp. */
export function weftOf(
  course: Course,
  piece: CoursePiece,
  lengths: WeftLengths,
): readonly WeftUse[] {
  const counts = countStripes(course, piece);
  const stitched = stitchingTails(course, piece);
  return course.plan.yarns.map((yarn, i) => {
    const picks = counts.picks[i] ?? 0;
    const stitching = stitched[i] ?? 0;
    return useOf(texOf(yarn.count), {
      picks,
      thrown: picks * lengths.perPick,
      carried: counts.carried[i] ?? 0,
      tails: ((counts.ends[i] ?? 0) - stitching) * TUCKED_TAIL,
      stitching: stitching * lengths.stitching,
    });
  });
}

/** The sum of what one yarn gives to several pieces. */
export function addUses(tex: Tex, uses: readonly WeftUse[]): WeftUse {
  const sum = (part: (use: WeftUse) => number) => uses.reduce((total, use) => total + part(use), 0);
  return useOf(tex, {
    picks: sum((use) => use.picks),
    thrown: sum((use) => use.thrown),
    carried: sum((use) => use.carried),
    tails: sum((use) => use.tails),
    stitching: sum((use) => use.stitching),
  });
}

function useOf(tex: Tex, parts: Omit<WeftUse, 'length' | 'grams'>): WeftUse {
  const length = parts.thrown + parts.carried + parts.tails + parts.stitching;
  return { ...parts, length, grams: massOf(length, tex) };
}

interface Counts {
  readonly picks: Float64Array;
  readonly carried: Float64Array;
  /** Loose ends: starts and cuts. */
  readonly ends: Float64Array;
}

/** Plain loops over typed arrays: this runs on every keystroke of the planner. */
function countStripes({ stripes, turns, plan }: Course, piece: CoursePiece): Counts {
  const count = plan.yarns.length;
  const picks = new Float64Array(count);
  const carried = new Float64Array(count);
  const ends = new Float64Array(count);
  const end = piece.firstStripe + piece.stripes;
  for (let r = piece.firstStripe; r < end; r++) {
    const yarn = stripes.yarn[r] ?? 0;
    const after = stripes.firstPick[r + 1] ?? 0;
    picks[yarn] = (picks[yarn] ?? 0) + after - (stripes.firstPick[r] ?? 0);
    if (stripes.entry[r] === NEW) ends[yarn] = (ends[yarn] ?? 0) + 1;
    const rest = stripes.rest[r];
    if (rest === FLOAT || rest === CATCH) {
      const back = turns.loomStart[stripes.firstTurn[stripes.next[r] ?? 0] ?? 0] ?? 0;
      const left = turns.loomStart[stripes.firstTurn[r + 1] ?? 0] ?? 0;
      carried[yarn] = (carried[yarn] ?? 0) + back - left;
    } else {
      ends[yarn] = (ends[yarn] ?? 0) + 1;
    }
  }
  return { picks, carried, ends };
}

/** Hemstitch tails each yarn leaves: its first pick begins the piece, or its last one ends it. */
function stitchingTails({ stripes, plan }: Course, piece: CoursePiece): readonly number[] {
  const tails = plan.yarns.map(() => 0);
  const it = plan.pieces[piece.index];
  const leave = (stripe: number) => {
    const yarn = stripes.yarn[stripe] ?? 0;
    tails[yarn] = (tails[yarn] ?? 0) + 1;
  };
  if (piece.stripes === 0) return tails;
  if (it?.beginning.kind === 'hemstitch') leave(piece.firstStripe);
  if (it?.ending.kind === 'hemstitch') leave(piece.firstStripe + piece.stripes - 1);
  return tails;
}
