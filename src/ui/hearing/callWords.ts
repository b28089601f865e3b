/** The call in words, for ears: what the voice says and the live region holds. */
import type { Spoken } from '../../core/bench/hearing/calls.ts';
import type { PickFacts } from '../../core/bench/pickAt.ts';
import type { Progress } from '../../core/bench/progress.ts';
import type { LoomKind, Plan } from '../../core/plan/plan.ts';
import { count, shedWord } from '../format.ts';
import { t } from '../language/t.ts';
import { dueTitle, dueWords, handWords, isByEye } from '../screens/weave/words.ts';

/** One sentence or more a part; parts that come to no words are left out. */
export function callWords(progress: Progress, spoken: readonly Spoken[]): readonly string[] {
  const { plan } = progress.course;
  return spoken.map((it) => partWords(plan, progress, it)).filter((words) => words !== '');
}

function partWords(plan: Plan, progress: Progress, it: Spoken): string {
  switch (it.kind) {
    case 'piece':
      return pieceWords(plan, it.piece);
    case 'turn':
      return `${it.left}${it.goesOn ? ' more' : ''} of ${handedWords(plan, it.facts)}`;
    case 'byEye':
      return `By eye: ${handedWords(plan, it.facts)}`;
    case 'hand':
      return handWords(plan, it.facts).join(' ');
    case 'yarnAhead':
      return it.yarn === null
        ? t('In {n, plural, one {# pick} other {# picks}} the piece ends.', { n: it.picks })
        : `In ${count(it.picks, 'pick')}, ${spokenName(plan, it.yarn)}.`;
    case 'dueAhead':
      return `In ${count(it.picks, 'pick')}: ${dueTitle(plan, it.due)}.`;
    case 'due': {
      const { title, text } = dueWords(plan, progress, it.due);
      return `Due: ${title}. ${text}`;
    }
    case 'woven':
      return 'Woven to the end.';
  }
}

/** A lone piece needs no name. */
function pieceWords(plan: Plan, piece: number): string {
  const of = plan.pieces.length;
  return of === 1 ? '' : `Piece ${piece + 1} of ${of}, ${plan.pieces[piece]?.name ?? ''}.`;
}

const handedWords = (plan: Plan, { yarn, from, shed }: PickFacts) =>
  `${spokenName(plan, yarn)}, from the ${from}, ${spokenShed(plan.loom.kind, shed)}.`;

/** The name, with the letter where another yarn is called the same. */
export function spokenName({ yarns }: Plan, index: number): string {
  const yarn = yarns[index];
  if (yarn === undefined) return '';
  const isAlone = yarns.every((it) => it === yarn || it.name !== yarn.name);
  return isAlone ? yarn.name : `${yarn.name} ${yarn.letter}`;
}

function spokenShed(kind: LoomKind, shed: number): string {
  const word = shedWord(kind, shed);
  return kind === 'rigid-heddle' ? `heddle ${word}` : `${word} shed`;
}

/** Which pick of its stripe comes next, where the voice says nothing. */
export const placeWords = (facts: PickFacts) => {
  const { done, picks } = facts.stripe;
  return isByEye(facts) ? `${done} thrown` : `pick ${done + 1} of ${picks}`;
};
