/** What is wrong with a plan, in words: loaded by the screens that show it. */

import type { Problem, ProblemCode } from '../core/plan/problems.ts';
import { inOurNumbers } from './format.ts';
import { t } from './language/t.ts';

/** What is wrong, and what would be right. */
export interface ProblemWords {
  readonly wrong: string;
  readonly right: string;
}

export function wordsFor(problem: Problem): ProblemWords {
  const words = PROBLEMS[problem.code];
  // Of a field that is missing, its own name is no news.
  const isName = problem.right === problem.path.split('.').at(-1);
  const right = isName ? '' : inOurNumbers(problem.right ?? '');
  const got = inOurNumbers(problem.got ?? t('nothing'));
  return { wrong: words.wrong(got, right), right: words.right(right) };
}

interface Wording {
  readonly wrong: (got: string, right: string) => string;
  readonly right: (right: string) => string;
}

const PROBLEMS: Record<ProblemCode, Wording> = {
  'not-json': {
    wrong: () => t('The file is not readable as JSON.'),
    right: () => t('A Fellmark plan is a .json file, whole and unchanged.'),
  },
  'too-large': {
    wrong: () => t('The file is too large for a plan.'),
    right: (right) => t('At most {right}.', { right }),
  },
  'too-deep': {
    wrong: () => t('The file is nested too deeply.'),
    right: (right) => t('At most {right} levels.', { right }),
  },
  'wrong-format': {
    wrong: (got) => t('This is not a Fellmark plan: format is {got}.', { got }),
    right: (right) => t('format should be “{right}”.', { right }),
  },
  'newer-version': {
    wrong: (got) => t('The plan was made by a newer Fellmark (version {got}).', { got }),
    right: (right) => t('This app reads up to version {right}: update the app.', { right }),
  },
  'wrong-version': {
    wrong: (got) => t('The plan’s version is {got}.', { got }),
    right: (right) => t('version should be {right}.', { right }),
  },
  missing: {
    wrong: () => t('This is missing.'),
    right: (right) => (right === '' ? t('Fill it in.') : t('It should be {right}.', { right })),
  },
  'unknown-field': {
    wrong: () => t('A plan has no such field.'),
    right: () => t('Take it out, or check how it is spelt.'),
  },
  'wrong-type': {
    wrong: (got) => t('{got} is of the wrong kind.', { got }),
    right: (right) => t('It should be {right}.', { right }),
  },
  'not-one-of': {
    wrong: (got) => t('“{got}” is not one of the choices.', { got }),
    right: (right) => t('Choose {right}.', { right }),
  },
  'not-whole': {
    wrong: (got) => t('{got} is not a whole number.', { got }),
    right: () => t('Give a whole number.'),
  },
  'too-small': {
    wrong: (got) => t('{got} is too small.', { got }),
    right: (right) => t('At least {right}.', { right }),
  },
  'too-big': {
    wrong: (got) => t('{got} is too large.', { got }),
    right: (right) => t('At most {right}.', { right }),
  },
  'too-short': {
    wrong: (_, right) => (right === '1' ? t('This is empty.') : t('There is too little here.')),
    right: (right) => (right === '1' ? t('Put something in.') : t('At least {right}.', { right })),
  },
  'too-long': {
    wrong: () => t('There is too much here.'),
    right: (right) => t('At most {right}.', { right }),
  },
  'bad-colour': {
    wrong: (got) => t('“{got}” is not a colour.', { got }),
    right: () => t('Six digits after #, such as #5d7043.'),
  },
  'bad-letter': {
    wrong: (got) => t('“{got}” is not a yarn letter.', { got }),
    right: () => t('One capital letter, A to Z.'),
  },
  'unknown-yarn': {
    wrong: (got) => t('No yarn has the letter {got}.', { got }),
    right: (right) => t('The plan’s yarns are {right}.', { right }),
  },
  'duplicate-letter': {
    wrong: (got) => t('Two yarns have the letter {got}.', { got }),
    right: (right) => t('Give one of them another letter, such as {right}.', { right }),
  },
  'first-end-missing': {
    wrong: () => t('Whether the first end lies in a slot or a hole is not said.'),
    right: () => t('slot or hole.'),
  },
  'first-end-not-for-shafts': {
    wrong: () => t('On shafts the first end is always an odd end.'),
    right: () => t('Take this out.'),
  },
  'shed-of-other-loom': {
    wrong: (got) => t('This loom has no shed “{got}”.', { got }),
    right: (right) => t('Choose {right}.', { right }),
  },
  'wider-than-loom': {
    wrong: (got) => t('{got} ends are wider than the loom.', { got }),
    right: (right) => t('At most {right} ends fit.', { right }),
  },
  'no-ends': { wrong: () => t('The warp has no ends.'), right: () => t('At least one.') },
  'too-many-ends': {
    wrong: (got) => t('{got} ends are more than a plan may hold.', { got }),
    right: (right) => t('At most {right}.', { right }),
  },
  'too-many-picks': {
    wrong: (got) => t('{got} picks are more than a plan may hold.', { got }),
    right: (right) => t('At most {right}.', { right }),
  },
  'free-in-group': {
    wrong: () => t('A part woven by eye cannot be repeated or mirrored.'),
    right: () => t('Take it out of the group.'),
  },
  'cycle-neighbours-equal': {
    wrong: (got) =>
      t('{got} follows itself in the alternation, so the two turns melt into one.', { got }),
    right: () => t('Neighbours must be different yarns.'),
  },
  'there-and-back-needs-three': {
    wrong: () => t('There and back needs three colours or more.'),
    right: () => t('With two, choose round.'),
  },
  'opens-not-in-cycle': {
    wrong: (got) => t('The alternation should open on {got}, which is not in it.', { got }),
    right: (right) => t('One of {right}.', { right }),
  },
  'closes-not-in-cycle': {
    wrong: (got) => t('The alternation should close on {got}, which is not in it.', { got }),
    right: (right) => t('One of {right}.', { right }),
  },
  'does-not-close': {
    wrong: (got) => t('With {got} the alternation does not end on its closing yarn.', { got }),
    right: (right) => t('Near it: {right}.', { right }),
  },
  'not-whole-turns': {
    wrong: (got) => t('{got} picks do not make whole turns.', { got }),
    right: (right) => t('Near it: {right}.', { right }),
  },
  'hemstitch-starts-at-working-side': {
    wrong: (got) =>
      t('A hemstitched piece cannot start from the {got}: its tail hangs on the working side.', {
        got,
      }),
    right: (right) => t('Start from the {right}, or leave this out.', { right }),
  },
};
