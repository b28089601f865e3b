/** Words for an order of stripes or blocks that cannot be read as it was typed. */
import type { TextFault, TextFaultCode } from '../core/plan/text/faults.ts';
import { t } from './language/t.ts';
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
const shown = (got: string) => (got === '' ? t('the end') : `“${got}”`);

const FAULTS: Record<TextFaultCode, Wording> = {
  empty: {
    wrong: () => t('There is nothing here yet.'),
    right: (right) => t('Begin with a number and a yarn, such as {right}.', { right }),
  },
  'too-much': {
    wrong: () => t('This is far too long for an order.'),
    right: () => t('Use repeats: 12 times (2 A, 2 B).'),
  },
  'too-deep': {
    wrong: () => t('Too many brackets inside each other.'),
    right: (right) => t('At most {right}.', { right }),
  },
  'too-many': {
    wrong: () => t('Too many items in one list.'),
    right: (right) => t('At most {right}; put what repeats in brackets.', { right }),
  },
  'too-few': {
    wrong: () => t('There is too little in these brackets.'),
    right: (right) =>
      right === '1' ? t('Put something in.') : t('At least {right} yarns take turns.', { right }),
  },
  'number-wanted': {
    wrong: (got) => t('A number is wanted at {what}.', { what: shown(got) }),
    right: () => t('Say how many first: 24 A.'),
  },
  'yarn-wanted': {
    wrong: (got) => t('A yarn is wanted at {what}.', { what: shown(got) }),
    right: (right) =>
      right === 'A' ? t('Write its letter, A to Z.') : t('Write {right}.', { right }),
  },
  'unknown-word': {
    wrong: (got) => t('{what} says nothing here.', { what: shown(got) }),
    right: (right) => t('Write {right}.', { right }),
  },
  'bracket-wanted': {
    wrong: (got) => t('A bracket is wanted at {what}.', { what: shown(got) }),
    right: () => t('Put what takes turns or repeats in brackets: (2 A, 2 B).'),
  },
  'bracket-unclosed': {
    wrong: () => t('A bracket is still open.'),
    right: (right) => t('Close it with {right}.', { right }),
  },
  'bracket-unopened': {
    wrong: () => t('This bracket closes nothing.'),
    right: () => t('Take it out, or open one before it.'),
  },
  'not-whole': {
    wrong: (got) => t('{what} is not a whole number.', { what: shown(got) }),
    right: () => t('Count whole threads, turns and times; a length says its unit, in or cm.'),
  },
  'too-small': {
    wrong: (got) => t('{what} is too small.', { what: shown(got) }),
    right: (right) => t('At least {right}.', { right }),
  },
  'too-big': {
    wrong: (got) => t('{what} is too large.', { what: shown(got) }),
    right: (right) => t('At most {right}.', { right }),
  },
  'ambiguous-comma': {
    wrong: (got) => t('{what} can be read two ways.', { what: shown(got) }),
    right: (right) => t('Write {right}, or a decimal with a point.', { right }),
  },
  'not-a-length': {
    wrong: (got) => t('{what} is not a length.', { what: shown(got) }),
    right: (right) => t('Lengths are {right}.', { right }),
  },
  'not-in-a-warp': {
    wrong: (got) => t('{what} is for a weft.', { what: shown(got) }),
    right: (right) => (right === '' ? t('Leave it out here.') : t('Count ends here: 24 A.')),
  },
  'not-in-a-weft': {
    wrong: (got) => t('{what} is for a warp.', { what: shown(got) }),
    right: () => t('Count picks here, or give a length: 24 picks A, 2½ in A.'),
  },
};
