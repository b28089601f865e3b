/** The turns of one piece followed to some point: what is seen, what is still to weave and to be believed. */
import type { Mm } from '../../measure/length.ts';
import { type LaidBlock, turnOf } from '../../plan/blocks.ts';
import { lengthOfPiece } from '../tape.ts';
import type { Reading } from './ending.ts';
import type { Reckoning } from './reckoning.ts';
import { copyOf as copyOfSeen, noneSeen, type SeenRuns, samenessOf, see, unsee } from './seen.ts';

/** Picks of one yarn in a row; they may be none. */
export interface Turn {
  readonly yarn: number;
  readonly picks: number;
  /** Planned millimetres per pick. */
  readonly spacing: Mm;
}

/** Grows in place, turn by turn. */
export interface Strand {
  /** Whether it is the piece at the fell: another one is all to come. */
  readonly isPresent: boolean;
  picks: number;
  /** Picks still to weave, and their planned length in millimetres, by yarn index. */
  readonly toWeave: number[];
  readonly ahead: Mm[];
  readonly yarns: SeenRuns;
  readonly colours: SeenRuns;
}

/** A piece before its first pick: nothing followed yet, not even what of it is woven. */
export function newStrand({ plan, present }: Reckoning, piece: number): Strand {
  return {
    isPresent: piece === present.index,
    picks: 0,
    toWeave: plan.yarns.map(() => 0),
    ahead: plan.yarns.map(() => 0),
    yarns: noneSeen(),
    colours: noneSeen(),
  };
}

/** The same strand in lists of its own, to be followed another way: a strand grows in place. */
export function copyOf({ toWeave, ahead, yarns, colours, ...rest }: Strand): Strand {
  return {
    ...rest,
    toWeave: [...toWeave],
    ahead: [...ahead],
    yarns: copyOfSeen(yarns),
    colours: copyOfSeen(colours),
  };
}

/** One turn more. */
export function weave(reckoning: Reckoning, strand: Strand, turn: Turn): void {
  const { yarn, picks, spacing } = turn;
  const woven = wovenOf(reckoning, strand, picks);
  const planned = (picks - woven.picks) * spacing;
  const mm = woven.mm + planned * (reckoning.beliefs.rates[yarn] ?? 1);
  strand.picks += picks;
  strand.toWeave[yarn] = (strand.toWeave[yarn] ?? 0) + picks - woven.picks;
  strand.ahead[yarn] = (strand.ahead[yarn] ?? 0) + planned;
  see(strand.yarns, yarn, picks, mm);
  see(strand.colours, reckoning.colours[yarn] ?? 0, picks, mm);
}

/** How many of the next picks are in the cloth, and their length there. */
function wovenOf({ pick, present, course }: Reckoning, strand: Strand, picks: number) {
  const from = present.firstPick + strand.picks;
  if (!strand.isPresent || pick <= from) return { picks: 0, mm: 0 };
  const to = Math.min(pick, from + picks);
  const mm = lengthOfPiece(course, present, to) - lengthOfPiece(course, present, from);
  return { picks: to - from, mm };
}

/** All turns of a laid block more, on the strand itself. */
export function weaveBlock(reckoning: Reckoning, strand: Strand, laid: LaidBlock): void {
  for (let k = 0; k < laid.turns; k++) weave(reckoning, strand, turnIn(laid, k));
}

/** Turn `k` of a laid block, counted from 0, with what a pick of it is planned to take there (mm). */
export function turnIn(laid: LaidBlock, k: number): Turn {
  const { yarn, picks } = turnOf(laid, k);
  return { yarn, picks, spacing: laid.spacings[yarn] ?? 0 };
}

/** How the piece reads as far as it is followed. */
export function readingOf({ yarns, colours }: Strand): Reading {
  return {
    same: samenessOf(yarns, colours),
    begins: yarns.of[0] ?? 0,
    ends: yarns.of[yarns.of.length - 1] ?? 0,
  };
}

/** How the piece would read with one turn more, which is not yet woven. */
export function readingWith(reckoning: Reckoning, strand: Strand, turn: Turn): Reading {
  const mm = turn.picks * turn.spacing * (reckoning.beliefs.rates[turn.yarn] ?? 1);
  see(strand.yarns, turn.yarn, turn.picks, mm);
  see(strand.colours, reckoning.colours[turn.yarn] ?? 0, turn.picks, mm);
  const reading = readingOf(strand);
  unsee(strand.yarns, turn.picks, mm);
  unsee(strand.colours, turn.picks, mm);
  return reading;
}

/** A list with so much more at one place. */
export function plus(list: readonly number[], at: number, more: number): readonly number[] {
  const sums = [...list];
  sums[at] = (sums[at] ?? 0) + more;
  return sums;
}
