/** Words for an order of stripes or blocks that cannot be read as it was typed. */
import type { TextFault, TextFaultCode } from '../core/plan/text/faults.ts';
import type { ProblemWords } from './problemWords.ts';

export function wordsForFault(fault: TextFault): ProblemWords {
  const words = FAULTS[fault.code];
  return { wrong: words.wrong(fault.got), right: words.right(fault.right) };
}

interface Wording {
  readonly wrong: (got: string) => string;
  readonly right: (right: string) => string;
}

/** What stands there, or that nothing does. */
const shown = (got: string) => (got === '' ? 'the end' : `“${got}”`);

const FAULTS: Record<TextFaultCode, Wording> = {
  empty: {
    wrong: () => 'There is nothing here yet.',
    right: (right) => `Begin with a number and a yarn, such as ${right}.`,
  },
  'too-much': {
    wrong: () => 'This is far too long for an order.',
    right: () => 'Use repeats: 12 times (2 A, 2 B).',
  },
  'too-deep': {
    wrong: () => 'Too many brackets inside each other.',
    right: (right) => `At most ${right}.`,
  },
  'too-many': {
    wrong: () => 'Too many items in one list.',
    right: (right) => `At most ${right}; put what repeats in brackets.`,
  },
  'too-few': {
    wrong: () => 'There is too little in these brackets.',
    right: (right) => (right === '1' ? 'Put something in.' : `At least ${right} yarns take turns.`),
  },
  'number-wanted': {
    wrong: (got) => `A number is wanted at ${shown(got)}.`,
    right: () => 'Say how many first: 24 A.',
  },
  'yarn-wanted': {
    wrong: (got) => `A yarn is wanted at ${shown(got)}.`,
    right: (right) => (right === 'A' ? 'Write its letter, A to Z.' : `Write ${right}.`),
  },
  'unknown-word': {
    wrong: (got) => `${shown(got)} says nothing here.`,
    right: (right) => `Write ${right}.`,
  },
  'bracket-wanted': {
    wrong: (got) => `A bracket is wanted at ${shown(got)}.`,
    right: () => 'Put what takes turns or repeats in brackets: (2 A, 2 B).',
  },
  'bracket-unclosed': {
    wrong: () => 'A bracket is still open.',
    right: (right) => `Close it with ${right}.`,
  },
  'bracket-unopened': {
    wrong: () => 'This bracket closes nothing.',
    right: () => 'Take it out, or open one before it.',
  },
  'not-whole': {
    wrong: (got) => `${shown(got)} is not a whole number.`,
    right: () => 'Count whole threads, turns and times; a length says its unit, in or cm.',
  },
  'too-small': {
    wrong: (got) => `${shown(got)} is too small.`,
    right: (right) => `At least ${right}.`,
  },
  'too-big': {
    wrong: (got) => `${shown(got)} is too large.`,
    right: (right) => `At most ${right}.`,
  },
  'ambiguous-comma': {
    wrong: (got) => `${shown(got)} can be read two ways.`,
    right: (right) => `Write ${right}, or a decimal with a point.`,
  },
  'not-a-length': {
    wrong: (got) => `${shown(got)} is not a length.`,
    right: (right) => `Lengths are ${right}.`,
  },
  'not-in-a-warp': {
    wrong: (got) => `${shown(got)} is for a weft.`,
    right: (right) => (right === '' ? 'Leave it out here.' : 'Count ends here: 24 A.'),
  },
  'not-in-a-weft': {
    wrong: (got) => `${shown(got)} is for a warp.`,
    right: () => 'Count picks here, or give a length: 24 picks A, 2½ in A.',
  },
};
