/** The steps from the slots into the holes, in words. */
import type { WarpingStep } from '../../../core/plan/warping/list.ts';
import { t } from '../../language/t.ts';
import {
  capital,
  endsOf,
  nameIn,
  namesOf,
  type StepWords,
  sideSeen,
  slotsIn,
  titleOf,
  type Work,
} from './stepWords.ts';

type HoleStep = Extract<WarpingStep, { phase: 'holes' }>;

export function holeWords(work: Work, step: HoleStep): StepWords {
  const { plan, list } = work;
  const side = sideSeen(work, list.holeSide ?? 'right');
  const each = plan.loom.endsPerDent;
  const slots = step.to - step.from;
  const place = slotsIn(step);
  switch (step.kind) {
    case 'move': {
      const hands = [
        t(
          'From every slot {n, plural, one {one end} other {# ends}} into the hole on its {side, select, left {left} other {right}}.',
          { n: each, side },
        ),
      ];
      const amount = endsOf(slots * each);
      return { runs: step.runs, title: titleOf(plan, step.runs), amount, place, hands };
    }
    case 'choose': {
      const all = [...step.stays, ...step.moves].map((of) => ({ of, count: 1 }));
      const amount = endsOf(slots * Math.max(1, step.moves.length));
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
      const n = slots / 2;
      const amount = { count: n, unit: t('{n, plural, one {swap} other {swaps}}', { n }) };
      return { runs, title: titleOf(plan, runs), amount, place, hands: swapHands(work, step) };
    }
  }
}

function chooseHands(work: Work, step: Extract<HoleStep, { kind: 'choose' }>): readonly string[] {
  const side = sideSeen(work, work.list.holeSide ?? 'right');
  const stays = namesOf(work.plan, step.stays);
  const moves = namesOf(work.plan, step.moves);
  if (moves === '')
    return [t('{yarn} stays in its slot: there is no second end.', { yarn: capital(stays) })];
  if (stays === '')
    return [
      t('{yarn} goes into the hole on the {side, select, left {left} other {right}}, none stays.', {
        yarn: capital(moves),
        side,
      }),
    ];
  return [
    t(
      '{yarn} goes into the hole on the {side, select, left {left} other {right}}, {other} stays in the slot.',
      { yarn: capital(moves), side, other: stays },
    ),
  ];
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
    t('Two slots at a time: one {gives} and one {takes} change places.', { gives, takes }),
    t(
      'Then into the holes on the {side, select, left {left} other {right}}, so that they lie {yarns}.',
      { side, yarns: lie.join(', ') },
    ),
  ];
}
