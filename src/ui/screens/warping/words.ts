/** What the warping screen says about a step, from what the core derives. Slots and ends from 1. */
import type { Letter, Plan } from '../../../core/plan/plan.ts';
import type {
  DentRange,
  ThreadPlace,
  ThreadStep,
  WarpingPhase,
  WarpingStep,
} from '../../../core/plan/warping/list.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { holeWords } from './holeWords.ts';
import { loopWords } from './loopWords.ts';
import {
  capital,
  dentsIn,
  endsOf,
  nameIn,
  numbersOf,
  type StepWords,
  sideSeen,
  slotsIn,
  titleOf,
  type Work,
} from './stepWords.ts';

export const PHASES: Record<WarpingPhase, string> = {
  setup: t('Set up'),
  loops: t('Loops through the slots'),
  wind: t('Wind on'),
  holes: t('From the slots into the holes'),
  thread: t('Thread end by end'),
  floating: t('Floating selvedges'),
};

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
  const place = { n: start.index + 1, kind: start.kind, all: start.of };
  // The number and its unit stay together on a line.
  const peg = length(list.pegDistance, plan.units, 'long').replace(' ', '\u00a0');
  return {
    runs: [],
    title: direct
      ? t('Peg at {length}', { length: peg })
      : t('A warp of {length}', { length: peg }),
    amount: null,
    place: t('from {kind, select, slot {slot} hole {hole} other {dent}} {n} of {all}', {
      ...place,
      n: String(place.n),
    }),
    hands: [
      direct ? t('Set the peg {length} from the back beam.', { length: peg }) : '',
      t(
        'Begin in the {n, selectordinal, one {#st} two {#nd} few {#rd} other {#th}} {kind, select, slot {slot} hole {hole} other {dent}} from the {side, select, left {left} other {right}}: {free} stay free beside it.',
        { ...place, side: sideSeen(work, 'left'), free },
      ),
      t('It is {kind, select, slot {slot} hole {hole} other {dent}} 1 of the warp.', place),
      plan.loom.endsPerDent > 1 ? eachWords(work) : '',
    ].filter((it) => it !== ''),
  };
}

function eachWords({ list, plan }: Work): string {
  const n = plan.loom.endsPerDent;
  if (plan.loom.kind === 'shaft')
    return t('{n, plural, one {# end} other {# ends}} lie in a dent.', { n });
  return list.method === 'direct'
    ? t(
        '{n, plural, one {# end} other {# ends}} lie in every slot and hole, {n} loops to a slot.',
        { n },
      )
    : t('{n, plural, one {# end} other {# ends}} lie in every slot and hole.', { n });
}

const windWords: StepWords = {
  runs: [],
  title: t('Wind the warp on'),
  amount: null,
  place: '',
  hands: [
    t('All loops are in. Take them off the peg, wind the warp on and cut them open.'),
    t('Then one end of each loop goes from its slot into a hole.'),
  ],
};

function floatingWords({ plan, list }: Work, yarn: Letter): StepWords {
  const peg = length(list.pegDistance, plan.units, 'long');
  return {
    runs: [{ of: yarn, count: 2 }],
    title: nameIn(plan, yarn),
    amount: endsOf(2),
    place: t('at the edges'),
    hands: [
      t('Measure two more ends of {length}.', { length: peg }),
      t(
        'Take one through the next free {loom, select, shaft {dent} other {slot}} outside each edge, through no {loom, select, shaft {heddle} other {hole}}, and weight it at the back.',
        { loom: plan.loom.kind },
      ),
    ],
  };
}

function threadWords({ plan, list }: Work, step: ThreadStep): StepWords {
  const { first, last, dents } = step;
  return {
    runs: step.runs,
    title: titleOf(plan, step.runs),
    amount: endsOf(step.to - step.from),
    place: dents === null ? slotsOf(first, last) : dentsIn(dents),
    hands: [
      step.to === list.ends
        ? t('{n, plural, one {End {to}} other {Ends {from}–{to}}}, the last.', numbersOf(step))
        : t('{n, plural, one {End {to}} other {Ends {from}–{to}}}.', numbersOf(step)),
      first.kind === 'shaft'
        ? t('Shafts 1 and 2 by turns, the first end on shaft {shaft}.', { shaft: first.shaft })
        : t('Slot and hole by turns, from {first} to {last}.', {
            first: placeWords(first),
            last: placeWords(last),
          }),
      ...(dents === null ? [] : [dentWords(plan, dents)]),
    ].filter((it) => it !== ''),
  };
}

function slotsOf(first: ThreadPlace, last: ThreadPlace): string {
  return first.kind === 'shaft' || last.kind === 'shaft'
    ? ''
    : slotsIn({ from: first.index, to: last.index + 1 });
}

function placeWords(place: ThreadPlace): string {
  return place.kind === 'shaft'
    ? t('shaft {n}', { n: String(place.shaft) })
    : t('{kind, select, slot {slot} other {hole}} {n}', {
        kind: place.kind,
        n: String(place.index + 1),
      });
}

function dentWords({ loom }: Plan, dents: DentRange): string {
  const each =
    loom.endsPerDent === 1
      ? ''
      : t('{n, plural, one {# end} other {# ends}} in a dent', { n: loom.endsPerDent });
  const shared = dents.sharesFirst ? t('the first dent already holds some') : '';
  const goesOn = dents.sharesLast ? t('the last dent is not full yet') : '';
  const all = [each, shared, goesOn].filter((it) => it !== '').join('; ');
  return all === '' ? '' : `${capital(all)}.`;
}
