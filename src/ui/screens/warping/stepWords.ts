/** What the words of every step are made of: its yarns, its amount, its numbers, counted from 1. */
import { countsBy, type Runs } from '../../../core/measure/runs.ts';
import type { Letter, Plan, Side } from '../../../core/plan/plan.ts';
import type { Viewpoint, WarpingList } from '../../../core/plan/warping/list.ts';
import { list as sentence } from '../../format.ts';
import { t } from '../../language/t.ts';

/** The list on the screen, and where its reader stands. */
export interface Work {
  readonly plan: Plan;
  readonly list: WarpingList;
  readonly seenFrom: Viewpoint;
}

export interface StepWords {
  /** The yarns in the order they are taken; a few runs, or one big one. */
  readonly runs: Runs<Letter>;
  /** Where there is no yarn to name. */
  readonly title: string;
  readonly amount: { readonly count: number; readonly unit: string } | null;
  readonly place: string;
  /** What the hands do besides, sentence by sentence. */
  readonly hands: readonly string[];
}

export const nameIn = (plan: Plan, letter: Letter) =>
  plan.yarns.find((yarn) => yarn.letter === letter)?.name ?? letter;

/** The side as the weaver sees it now. */
export function sideSeen({ list, seenFrom }: Work, side: Side): Side {
  if (seenFrom === list.viewpoint) return side;
  return side === 'left' ? 'right' : 'left';
}

export interface Range {
  readonly from: number;
  readonly to: number;
}

/** What a range is called by, counted from 1; its own indices count from 0, half-open. */
export const numbersOf = ({ from, to }: Range) => ({
  n: to - from,
  from: String(from + 1),
  to: String(to),
});

/** `slot 13`, `slots 13–24` */
export const slotsIn = (range: Range) =>
  t('{n, plural, one {slot {to}} other {slots {from}–{to}}}', numbersOf(range));

export const dentsIn = (range: Range) =>
  t('{n, plural, one {dent {to}} other {dents {from}–{to}}}', numbersOf(range));

export const endsOf = (n: number) => ({
  count: n,
  unit: t('{n, plural, one {end} other {ends}}', { n }),
});

export function namesOf(plan: Plan, letters: readonly Letter[]): string {
  return sentence([...new Set(letters)].map((letter) => nameIn(plan, letter)));
}

export function titleOf(plan: Plan, runs: Runs<Letter>): string {
  return namesOf(plan, [...countsBy(runs).keys()]);
}

export function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
