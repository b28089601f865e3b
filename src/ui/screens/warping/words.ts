/** What the warping screen says about a step, from what the core derives. Slots and ends from 1. */
import { countsBy, type Runs } from '../../../core/measure/runs.ts';
import type { Letter, Plan, Side } from '../../../core/plan/plan.ts';
import type {
  DentRange,
  ThreadPlace,
  ThreadStep,
  Viewpoint,
  WarpingList,
  WarpingPhase,
  WarpingStep,
} from '../../../core/plan/warping/list.ts';
import { count, length, list as sentence } from '../../format.ts';
import { joinWords } from './joinWords.ts';

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

export const PHASES: Record<WarpingPhase, string> = {
  setup: 'Set up',
  loops: 'Loops through the slots',
  wind: 'Wind on',
  holes: 'From the slots into the holes',
  thread: 'Thread end by end',
  floating: 'Floating selvedges',
};

export const nameIn = (plan: Plan, letter: Letter) =>
  plan.yarns.find((yarn) => yarn.letter === letter)?.name ?? letter;

/** The side as the weaver sees it now. */
export function sideSeen({ list, seenFrom }: Work, side: Side): Side {
  if (seenFrom === list.viewpoint) return side;
  return side === 'left' ? 'right' : 'left';
}

/** `slot 13`, `slots 13–24`; indices from 0, half-open. */
export function range(what: string, from: number, to: number): string {
  return to - from === 1 ? `${what} ${to}` : `${what}s ${from + 1}–${to}`;
}

export function ordinal(n: number): string {
  const teen = n % 100 > 10 && n % 100 < 14;
  const ending = teen ? 'th' : (['th', 'st', 'nd', 'rd'][n % 10] ?? 'th');
  return `${n}${ending}`;
}

export function stepWords(work: Work, step: WarpingStep): StepWords {
  switch (step.kind) {
    case 'setup':
      return setupWords(work);
    case 'wind':
      return windWords;
    case 'floating':
      return floatingWords(work, step.yarn);
    case 'thread':
      return threadWords(work, step);
    case 'loops':
    case 'tie':
    case 'single':
      return loopWords(work, step);
    case 'move':
    case 'choose':
    case 'swap':
      return holeWords(work, step);
  }
}

function setupWords(work: Work): StepWords {
  const { list, plan } = work;
  const { start } = list;
  const direct = list.method === 'direct';
  const free = length(start.free, plan.units).replace(' ', '\u00a0');
  const first = `the ${ordinal(start.index + 1)} ${start.kind} from the ${sideSeen(work, 'left')}`;
  // The number and its unit stay together on a line.
  const peg = length(list.pegDistance, plan.units, 'long').replace(' ', '\u00a0');
  return {
    runs: [],
    title: direct ? `Peg at ${peg}` : `A warp of ${peg}`,
    amount: null,
    place: `from ${start.kind} ${start.index + 1} of ${start.of}`,
    hands: [
      direct ? `Set the peg ${peg} from the back beam.` : '',
      `Begin in ${first}: ${free} stay free beside it.`,
      `It is ${start.kind} 1 of the warp.`,
      plan.loom.endsPerDent > 1 ? eachWords(work) : '',
    ].filter((it) => it !== ''),
  };
}

function eachWords({ list, plan }: Work): string {
  const each = count(plan.loom.endsPerDent, 'end');
  if (plan.loom.kind === 'shaft') return `${each} lie in a dent.`;
  const loops = list.method === 'direct' ? `, ${plan.loom.endsPerDent} loops to a slot` : '';
  return `${each} lie in every slot and hole${loops}.`;
}

const windWords: StepWords = {
  runs: [],
  title: 'Wind the warp on',
  amount: null,
  place: '',
  hands: [
    'All loops are in. Take them off the peg, wind the warp on and cut them open.',
    'Then one end of each loop goes from its slot into a hole.',
  ],
};

function floatingWords({ plan, list }: Work, yarn: Letter): StepWords {
  const peg = length(list.pegDistance, plan.units, 'long');
  const through = plan.loom.kind === 'shaft' ? 'the next free dent' : 'the next free slot';
  const not = plan.loom.kind === 'shaft' ? 'no heddle' : 'no hole';
  return {
    runs: [{ of: yarn, count: 2 }],
    title: nameIn(plan, yarn),
    amount: { count: 2, unit: 'ends' },
    place: 'at the edges',
    hands: [
      `Measure two more ends of ${peg}.`,
      `Take one through ${through} outside each edge, through ${not}, and weight it at the back.`,
    ],
  };
}

function threadWords({ plan, list }: Work, step: ThreadStep): StepWords {
  const { first, last, dents } = step;
  return {
    runs: step.runs,
    title: titleOf(plan, step.runs),
    amount: amountOf(step.to - step.from, 'end'),
    place: dents === null ? slotsOf(first, last) : range('dent', dents.from, dents.to),
    hands: [
      `${range('End', step.from, step.to)}${step.to === list.ends ? ', the last' : ''}.`,
      first.kind === 'shaft'
        ? `Shafts 1 and 2 by turns, the first end on shaft ${first.shaft}.`
        : `Slot and hole by turns, from ${placeWords(first)} to ${placeWords(last)}.`,
      ...(dents === null ? [] : [dentWords(plan, dents)]),
    ].filter((it) => it !== ''),
  };
}

function slotsOf(first: ThreadPlace, last: ThreadPlace): string {
  return first.kind === 'shaft' || last.kind === 'shaft'
    ? ''
    : range('slot', first.index, last.index + 1);
}

const amountOf = (n: number, one: string, many = `${one}s`) => ({
  count: n,
  unit: n === 1 ? one : many,
});

function placeWords(place: ThreadPlace): string {
  return place.kind === 'shaft' ? `shaft ${place.shaft}` : `${place.kind} ${place.index + 1}`;
}

function dentWords({ loom }: Plan, dents: DentRange): string {
  const each = loom.endsPerDent === 1 ? '' : `${count(loom.endsPerDent, 'end')} in a dent`;
  const shared = dents.sharesFirst ? 'the first dent already holds some' : '';
  const goesOn = dents.sharesLast ? 'the last dent is not full yet' : '';
  const all = [each, shared, goesOn].filter((it) => it !== '').join('; ');
  return all === '' ? '' : `${capital(all)}.`;
}

type LoopStep = Extract<WarpingStep, { phase: 'loops' }>;

function loopWords({ plan }: Work, step: LoopStep): StepWords {
  const place = range('slot', step.from, step.to);
  const name = (letter: Letter) => nameIn(plan, letter);
  const joins = joinWords(step.joins, name);
  switch (step.kind) {
    case 'loops':
      return {
        runs: Array.from({ length: step.times }, () => step.round).flat(),
        title: titleOf(plan, step.round),
        amount: amountOf(step.loops, 'loop'),
        place,
        hands: joins,
      };
    case 'tie': {
      const [comes, goes] = step.yarns;
      return {
        runs: step.yarns.map((of) => ({ of, count: 1 })),
        title: `${name(comes)} and ${name(goes)}`,
        amount: { count: 1, unit: 'loop of both' },
        place,
        hands: [
          `Half a loop each: bring ${name(comes)} to the peg and cut it there, tie ${name(goes)} to it and go back with ${name(goes)}.`,
          ...joins,
        ],
      };
    }
    case 'single': {
      const atPeg = step.joins.some((join) => join.begins.kind === 'at-peg');
      return {
        runs: [{ of: step.yarn, count: 1 }],
        title: name(step.yarn),
        amount: { count: 1, unit: 'end' },
        place,
        hands: [
          atPeg
            ? `One end by itself: tie ${name(step.yarn)} to the peg and bring it back through the slot.`
            : `One end by itself: bring ${name(step.yarn)} to the peg, cut it and tie it there.`,
          ...joins,
        ],
      };
    }
  }
}

type HoleStep = Extract<WarpingStep, { phase: 'holes' }>;

function holeWords(work: Work, step: HoleStep): StepWords {
  const { plan, list } = work;
  const side = sideSeen(work, list.holeSide ?? 'right');
  const each = plan.loom.endsPerDent;
  const slots = step.to - step.from;
  const place = range('slot', step.from, step.to);
  switch (step.kind) {
    case 'move': {
      const ends = each === 1 ? 'one end' : count(each, 'end');
      const hands = [`From every slot ${ends} into the hole on its ${side}.`];
      const amount = amountOf(slots * each, 'end');
      return { runs: step.runs, title: titleOf(plan, step.runs), amount, place, hands };
    }
    case 'choose': {
      const all = [...step.stays, ...step.moves].map((of) => ({ of, count: 1 }));
      const amount = amountOf(slots * Math.max(1, step.moves.length), 'end');
      return {
        runs: all,
        title: titleOf(plan, all),
        amount,
        place,
        hands: chooseHands(work, step),
      };
    }
    case 'swap': {
      const runs = [step.gives, step.takes].map((of) => ({ of, count: 1 }));
      const amount = amountOf(slots / 2, 'swap');
      return { runs, title: titleOf(plan, runs), amount, place, hands: swapHands(work, step) };
    }
  }
}

function chooseHands(work: Work, step: Extract<HoleStep, { kind: 'choose' }>): readonly string[] {
  const side = sideSeen(work, work.list.holeSide ?? 'right');
  const stays = namesOf(work.plan, step.stays);
  const moves = namesOf(work.plan, step.moves);
  if (moves === '') return [`${capital(stays)} stays in its slot: there is no second end.`];
  if (stays === '') return [`${capital(moves)} goes into the hole on the ${side}, none stays.`];
  return [`${capital(moves)} goes into the hole on the ${side}, ${stays} stays in the slot.`];
}

function swapHands(work: Work, step: Extract<HoleStep, { kind: 'swap' }>): readonly string[] {
  const { plan, list, seenFrom } = work;
  const gives = nameIn(plan, step.gives);
  const takes = nameIn(plan, step.takes);
  const across = [step.first, step.second].flatMap(({ stays, moves }) =>
    list.holeSide === 'left' ? [...moves, ...stays] : [...stays, ...moves],
  );
  const lie = (seenFrom === list.viewpoint ? across : across.toReversed()).map((it) =>
    nameIn(plan, it),
  );
  const side = sideSeen(work, list.holeSide ?? 'right');
  return [
    `Two slots at a time: one ${gives} and one ${takes} change places.`,
    `Then into the holes on the ${side}, so that they lie ${lie.join(', ')}.`,
  ];
}

function namesOf(plan: Plan, letters: readonly Letter[]): string {
  return sentence([...new Set(letters)].map((letter) => nameIn(plan, letter)));
}

function titleOf(plan: Plan, runs: Runs<Letter>): string {
  return namesOf(plan, [...countsBy(runs).keys()]);
}

function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
