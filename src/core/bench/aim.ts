/**
 * Aiming anew: as the beat becomes known, blocks that keep their length get other numbers of picks,
 * in whole turns and with the parity of every run kept, so that colours close and shuttles rest
 * where the plan has them (design §4 "Keeping lengths or picks"). What is woven never changes.
 *
 * The piece is steered as a whole: what the woven part missed is shared among the blocks to come,
 * and the rounding of one block is made good by the next, so that the last fell lies where the plan
 * has it. Hems and the second halves of mirrors give way last, and little.
 */
import type { Mm } from '../measure/length.ts';
import type { BlockPicks } from './adjustments.ts';
import {
  type Aim,
  aimsOf,
  asPartner,
  type Keeping,
  lastSet,
  lengthWith,
  matchedPicks,
  nearestPicks,
  partnerLength,
  stepLength,
} from './aims.ts';
import type { Course, CourseBlock, CoursePiece } from './course.ts';

/** New picks of the blocks from here on, at the beat now believed; only those that change. */
export function aimedAnew(course: Course, pick: number, keeping: Keeping): readonly BlockPicks[] {
  return course.pieces.flatMap((piece) =>
    piece.firstPick + piece.picks <= pick ? [] : aimedPiece(course, piece, pick, keeping),
  );
}

/** The second halves of mirrors alone, where a hand has changed their first halves. */
export function mirrorsMatched(
  course: Course,
  pick: number,
  keeping: Keeping,
): readonly BlockPicks[] {
  return course.pieces.flatMap((piece) => {
    const aims = aimsOf(course, piece, pick, keeping);
    return aims
      .filter((it) => it.partner !== null && changedByHand(course, it.partner.block))
      .flatMap((it) => changeTo(it, matchedPicks(it)));
  });
}

function changedByHand(course: Course, block: CourseBlock): boolean {
  const set = lastSet(course, block);
  return set !== undefined && set.aimed === undefined;
}

function aimedPiece(
  course: Course,
  piece: CoursePiece,
  pick: number,
  keeping: Keeping,
): readonly BlockPicks[] {
  const aims = aimsOf(course, piece, pick, keeping);
  const fixed = new Map<Aim, number>();
  for (const aim of aims) {
    const picks = fixedPicks(aim);
    if (picks !== null) fixed.set(aim, picks);
  }
  const plays = aims.filter((it) => !fixed.has(it)).map(playOf);
  const wishes = shared(plays, lengthLeft(aims, fixed));
  return [...[...fixed].flatMap(([aim, picks]) => changeTo(aim, picks)), ...steer(plays, wishes)];
}

/** Picks of a block that what the others came to does not move; null for one that is steered. */
function fixedPicks(aim: Aim): number | null {
  if (aim.state === 'woven') return aim.block.picks;
  if (aim.partner?.isWoven && aim.partner.match === 'picks') return matchedPicks(aim);
  return aim.keep === 'picks' ? aim.block.picks : null;
}

/** A steered block: the length it still wants for itself, and how far others may move that. */
interface Play {
  readonly aim: Aim;
  readonly wish: Mm;
  readonly least: Mm;
  readonly most: Mm;
  /** Takes its share of a miss before those that have little play do. */
  readonly isFree: boolean;
}

/** What was missed is never made good by more than this of the blocks to come (ours). */
const LEAST_STRETCH = 0.5;
const MOST_STRETCH = 1.5;
/** The way back of a mirror gives way by so much, or one step: not to be seen (ours). */
const TO_THE_EYE = 0.05;
/** A hem is folded in twice and can be a fifth longer or shorter before it folds badly (ours). */
const HEM_PLAY = 0.2;

function playOf(aim: Aim): Play {
  const { partner, wovenLength } = aim;
  const isHem = aim.base.block === null;
  if (!isHem && !partner?.isWoven) {
    const wish = Math.max(0, aim.wanted - wovenLength);
    return { aim, wish, least: LEAST_STRETCH * wish, most: MOST_STRETCH * wish, isFree: true };
  }
  const whole = partner?.isWoven ? partnerLength(aim) : aim.wanted;
  const wish = Math.max(0, whole - wovenLength);
  const give = Math.max(stepLength(aim), (isHem ? HEM_PLAY : TO_THE_EYE) * whole);
  return { aim, wish, least: Math.max(0, wish - give), most: wish + give, isFree: false };
}

/** Length still to be had from the steered blocks, so that those that keep their length come out. */
function lengthLeft(aims: readonly Aim[], fixed: ReadonlyMap<Aim, number>): Mm {
  return aims
    .filter((it) => it.keep === 'length')
    .reduce((sum, aim) => {
      const picks = fixed.get(aim);
      const had = picks === undefined ? aim.wovenLength : lengthWith(aim, picks);
      return sum + aim.wanted - had;
    }, 0);
}

/** Lengths still to be woven of each block, so that together they come to `left`, as far as they give way. */
function shared(plays: readonly Play[], left: Mm): readonly Mm[] {
  const miss = left - sumOf(plays, (it) => it.wish);
  const [free, bound] = [plays.filter((it) => it.isFree), plays.filter((it) => !it.isFree)];
  const taken = withinPlay(free, miss);
  const rest = withinPlay(bound, miss - taken);
  return plays.map((it) => {
    const among = it.isFree ? free : bound;
    const whole = sumOf(among, (one) => one.wish);
    const part = (it.isFree ? taken : rest) * (whole > 0 ? it.wish / whole : 0);
    return Math.min(it.most, Math.max(it.least, it.wish + part));
  });
}

function withinPlay(plays: readonly Play[], miss: Mm): Mm {
  const less = sumOf(plays, (it) => it.least - it.wish);
  const more = sumOf(plays, (it) => it.most - it.wish);
  return Math.min(more, Math.max(less, miss));
}

const sumOf = (plays: readonly Play[], length: (play: Play) => Mm) =>
  plays.reduce((sum, it) => sum + length(it), 0);

/**
 * Each block takes its share and what rounding left over from those before it. The second half of a
 * mirror whose first half is still to be woven does as that does, pick for pick.
 */
function steer(plays: readonly Play[], wishes: readonly Mm[]): readonly BlockPicks[] {
  const given = new Map<number, number>();
  let over = 0;
  return plays.flatMap(({ aim }, i) => {
    const wanted = aim.wovenLength + (wishes[i] ?? 0) + over;
    const first = given.get(aim.partner?.block.ofPiece ?? -1);
    const picks = first === undefined ? nearestPicks(aim, wanted) : asPartner(aim, first);
    given.set(aim.block.ofPiece, picks);
    over = wanted - lengthWith(aim, picks);
    return changeTo(aim, picks);
  });
}

function changeTo({ block, state }: Aim, picks: number): readonly BlockPicks[] {
  if (state === 'woven' || picks === block.picks) return [];
  return [{ piece: block.piece, block: block.ofPiece, picks, aimed: true }];
}
