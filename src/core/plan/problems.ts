/** What can be wrong with a plan. Words for people are made in `ui/messages.ts` from code and details. */

export interface Problem {
  /** Where in the file, such as `pieces[0].weft[2].extent.picks`; empty for the file as a whole. */
  readonly path: string;
  readonly code: ProblemCode;
  /** What stood there, shortened. */
  readonly got?: string;
  /** What would be right: a number, a letter, a list of words. */
  readonly right?: string;
}

export const PROBLEM_CODES = [
  'not-json',
  'too-large',
  'too-deep',
  'wrong-format',
  'newer-version',
  'wrong-version',
  'missing',
  'unknown-field',
  'wrong-type',
  'not-one-of',
  'not-whole',
  'too-small',
  'too-big',
  'too-short',
  'too-long',
  'bad-colour',
  'bad-letter',
  'unknown-yarn',
  'duplicate-letter',
  'first-end-missing',
  'first-end-not-for-shafts',
  'shed-of-other-loom',
  'wider-than-loom',
  'no-ends',
  'too-many-ends',
  'too-many-picks',
  'free-in-group',
  'cycle-neighbours-equal',
  'there-and-back-needs-three',
  'opens-not-in-cycle',
  'closes-not-in-cycle',
  'does-not-close',
  'not-whole-turns',
  'hemstitch-starts-at-working-side',
] as const;
export type ProblemCode = (typeof PROBLEM_CODES)[number];
