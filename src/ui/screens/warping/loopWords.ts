/** The steps that lay loops through the slots, in words. */
import type { Letter } from '../../../core/plan/plan.ts';
import type { WarpingStep } from '../../../core/plan/warping/list.ts';
import { list as sentence } from '../../format.ts';
import { t } from '../../language/t.ts';
import { joinWords } from './joinWords.ts';
import { endsOf, nameIn, type StepWords, slotsIn, titleOf, type Work } from './stepWords.ts';

type LoopStep = Extract<WarpingStep, { phase: 'loops' }>;

export function loopWords({ plan }: Work, step: LoopStep): StepWords {
  const place = slotsIn(step);
  const name = (letter: Letter) => nameIn(plan, letter);
  const joins = joinWords(step.joins, name);
  switch (step.kind) {
    case 'loops':
      return {
        runs: Array.from({ length: step.times }, () => step.round).flat(),
        title: titleOf(plan, step.round),
        amount: loopsOf(step.loops),
        place,
        hands: joins,
      };
    case 'tie': {
      const [comes, goes] = step.yarns;
      return {
        runs: step.yarns.map((of) => ({ of, count: 1 })),
        title: sentence([name(comes), name(goes)]),
        amount: { count: 1, unit: t('loop of both') },
        place,
        hands: [
          t(
            'Half a loop each: bring {comes} to the peg and cut it there, tie {goes} to it and go back with {goes}.',
            { comes: name(comes), goes: name(goes) },
          ),
          ...joins,
        ],
      };
    }
    case 'single': {
      const atPeg = step.joins.some((join) => join.begins.kind === 'at-peg');
      return {
        runs: [{ of: step.yarn, count: 1 }],
        title: name(step.yarn),
        amount: endsOf(1),
        place,
        hands: [
          atPeg
            ? t('One end by itself: tie {yarn} to the peg and bring it back through the slot.', {
                yarn: name(step.yarn),
              })
            : t('One end by itself: bring {yarn} to the peg, cut it and tie it there.', {
                yarn: name(step.yarn),
              }),
          ...joins,
        ],
      };
    }
  }
}

const loopsOf = (n: number) => ({
  count: n,
  unit: t('{n, plural, one {loop} other {loops}}', { n }),
});
