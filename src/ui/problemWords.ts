/** What is wrong with a plan, in words: loaded by the screens that show it. */
import type { Problem, ProblemCode } from '../core/plan/problems.ts';

/** What is wrong, and what would be right. */
export interface ProblemWords {
  readonly wrong: string;
  readonly right: string;
}

export function wordsFor(problem: Problem): ProblemWords {
  const words = PROBLEMS[problem.code];
  // Of a field that is missing, its own name is no news.
  const isName = problem.right === problem.path.split('.').at(-1);
  const right = isName ? '' : (problem.right ?? '');
  return { wrong: words.wrong(problem.got ?? 'nothing', right), right: words.right(right) };
}

interface Wording {
  readonly wrong: (got: string, right: string) => string;
  readonly right: (right: string) => string;
}

const PROBLEMS: Record<ProblemCode, Wording> = {
  'not-json': {
    wrong: () => 'The file is not readable as JSON.',
    right: () => 'A Fellmark plan is a .json file, whole and unchanged.',
  },
  'too-large': {
    wrong: () => 'The file is too large for a plan.',
    right: (right) => `At most ${right}.`,
  },
  'too-deep': {
    wrong: () => 'The file is nested too deeply.',
    right: (right) => `At most ${right} levels.`,
  },
  'wrong-format': {
    wrong: (got) => `This is not a Fellmark plan: format is ${got}.`,
    right: (right) => `format should be “${right}”.`,
  },
  'newer-version': {
    wrong: (got) => `The plan was made by a newer Fellmark (version ${got}).`,
    right: (right) => `This app reads up to version ${right}: update the app.`,
  },
  'wrong-version': {
    wrong: (got) => `The plan’s version is ${got}.`,
    right: (right) => `version should be ${right}.`,
  },
  missing: {
    wrong: () => 'This is missing.',
    right: (right) => (right === '' ? 'Fill it in.' : `It should be ${right}.`),
  },
  'unknown-field': {
    wrong: () => 'A plan has no such field.',
    right: () => 'Take it out, or check how it is spelt.',
  },
  'wrong-type': {
    wrong: (got) => `${got} is of the wrong kind.`,
    right: (right) => `It should be ${right}.`,
  },
  'not-one-of': {
    wrong: (got) => `“${got}” is not one of the choices.`,
    right: (right) => `Choose ${right}.`,
  },
  'not-whole': {
    wrong: (got) => `${got} is not a whole number.`,
    right: () => 'Give a whole number.',
  },
  'too-small': { wrong: (got) => `${got} is too small.`, right: (right) => `At least ${right}.` },
  'too-big': { wrong: (got) => `${got} is too large.`, right: (right) => `At most ${right}.` },
  'too-short': {
    wrong: (_, right) => (right === '1' ? 'This is empty.' : 'There is too little here.'),
    right: (right) => (right === '1' ? 'Put something in.' : `At least ${right}.`),
  },
  'too-long': { wrong: () => 'There is too much here.', right: (right) => `At most ${right}.` },
  'bad-colour': {
    wrong: (got) => `“${got}” is not a colour.`,
    right: () => 'Six digits after #, such as #5d7043.',
  },
  'bad-letter': {
    wrong: (got) => `“${got}” is not a yarn letter.`,
    right: () => 'One capital letter, A to Z.',
  },
  'unknown-yarn': {
    wrong: (got) => `No yarn has the letter ${got}.`,
    right: (right) => `The plan’s yarns are ${right}.`,
  },
  'duplicate-letter': {
    wrong: (got) => `Two yarns have the letter ${got}.`,
    right: (right) => `Give one of them another letter, such as ${right}.`,
  },
  'first-end-missing': {
    wrong: () => 'Whether the first end lies in a slot or a hole is not said.',
    right: () => 'slot or hole.',
  },
  'first-end-not-for-shafts': {
    wrong: () => 'On shafts the first end is always an odd end.',
    right: () => 'Take this out.',
  },
  'shed-of-other-loom': {
    wrong: (got) => `This loom has no shed “${got}”.`,
    right: (right) => `Choose ${right}.`,
  },
  'wider-than-loom': {
    wrong: (got) => `${got} ends are wider than the loom.`,
    right: (right) => `At most ${right} ends fit.`,
  },
  'no-ends': { wrong: () => 'The warp has no ends.', right: () => 'At least one.' },
  'too-many-ends': {
    wrong: (got) => `${got} ends are more than a plan may hold.`,
    right: (right) => `At most ${right}.`,
  },
  'too-many-picks': {
    wrong: (got) => `${got} picks are more than a plan may hold.`,
    right: (right) => `At most ${right}.`,
  },
  'free-in-group': {
    wrong: () => 'A part woven by eye cannot be repeated or mirrored.',
    right: () => 'Take it out of the group.',
  },
  'cycle-neighbours-equal': {
    wrong: (got) => `${got} follows itself in the alternation, so the two turns melt into one.`,
    right: () => 'Neighbours must be different yarns.',
  },
  'there-and-back-needs-three': {
    wrong: () => 'There and back needs three colours or more.',
    right: () => 'With two, choose round.',
  },
  'opens-not-in-cycle': {
    wrong: (got) => `The alternation should open on ${got}, which is not in it.`,
    right: (right) => `One of ${right}.`,
  },
  'closes-not-in-cycle': {
    wrong: (got) => `The alternation should close on ${got}, which is not in it.`,
    right: (right) => `One of ${right}.`,
  },
  'does-not-close': {
    wrong: (got) => `With ${got} the alternation does not end on its closing yarn.`,
    right: (right) => `Near it: ${right}.`,
  },
  'not-whole-turns': {
    wrong: (got) => `${got} picks do not make whole turns.`,
    right: (right) => `Near it: ${right}.`,
  },
  'hemstitch-starts-at-working-side': {
    wrong: (got) =>
      `A hemstitched piece cannot start from the ${got}: its tail hangs on the working side.`,
    right: (right) => `Start from the ${right}, or leave this out.`,
  },
};
