/** The call in words, for ears: what the voice says and the live region holds. */
import type { Spoken } from '../../core/bench/hearing/calls.ts';
import type { PickFacts } from '../../core/bench/pickAt.ts';
import type { Progress } from '../../core/bench/progress.ts';
import type { LoomKind, Plan } from '../../core/plan/plan.ts';
import { t } from '../language/t.ts';
import { dueWords } from '../screens/weave/dueWords.ts';
import { handWords, isByEye } from '../screens/weave/pickWords.ts';
import { dueTitle } from '../screens/weave/words.ts';

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
      return it.goesOn
        ? t('{n} more of {yarn}, from the {side, select, left {left} other {right}}, {shed}.', {
            n: it.left,
            ...handed(plan, it.facts),
          })
        : t('{n} of {yarn}, from the {side, select, left {left} other {right}}, {shed}.', {
            n: it.left,
            ...handed(plan, it.facts),
          });
    case 'byEye':
      return t(
        'By eye: {yarn}, from the {side, select, left {left} other {right}}, {shed}.',
        handed(plan, it.facts),
      );
    case 'hand':
      return handWords(plan, it.facts).join(' ');
    case 'yarnAhead':
      return it.yarn === null
        ? t('In {n, plural, one {# pick} other {# picks}} the piece ends.', { n: it.picks })
        : t('In {n, plural, one {# pick} other {# picks}}, {yarn}.', {
            n: it.picks,
            yarn: spokenName(plan, it.yarn),
          });
    case 'dueAhead':
      return t('In {n, plural, one {# pick} other {# picks}}: {due}.', {
        n: it.picks,
        due: dueTitle(plan, it.due),
      });
    case 'due': {
      const { title, text } = dueWords(plan, progress, it.due);
      return t('Due: {title}. {text}', { title, text });
    }
    case 'woven':
      return t('Woven to the end.');
  }
}

/** A lone piece needs no name. */
function pieceWords(plan: Plan, piece: number): string {
  const of = plan.pieces.length;
  const values = { n: piece + 1, of, name: plan.pieces[piece]?.name ?? '' };
  return of === 1 ? '' : t('Piece {n} of {of}, {name}.', values);
}

const handed = (plan: Plan, { yarn, from, shed }: PickFacts) => ({
  yarn: spokenName(plan, yarn),
  side: from,
  shed: spokenShed(plan.loom.kind, shed),
});

/** The name, with the letter where another yarn is called the same. */
function spokenName({ yarns }: Plan, index: number): string {
  const yarn = yarns[index];
  if (yarn === undefined) return '';
  const isAlone = yarns.every((it) => it === yarn || it.name !== yarn.name);
  return isAlone ? yarn.name : `${yarn.name} ${yarn.letter}`;
}

function spokenShed(kind: LoomKind, shed: number): string {
  const words = { shed: shed === 0 ? 'first' : 'second' };
  return kind === 'rigid-heddle'
    ? t('heddle {shed, select, first {up} other {down}}', words)
    : t('{shed, select, first {odd} other {even}} shed', words);
}

/** Which pick of its stripe comes next, where the voice says nothing. */
export const placeWords = (facts: PickFacts) => {
  const { done, picks } = facts.stripe;
  return isByEye(facts)
    ? t('{n} thrown', { n: done })
    : t('pick {n} of {of}', { n: done + 1, of: picks });
};
