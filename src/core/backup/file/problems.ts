/** What can be wrong with a backup file. Words for people are made by the screen. */
import type { Problem, ProblemCode } from '../../plan/problems.ts';

export const BACKUP_PROBLEM_CODES = [
  'cut-short',
  'changed',
  'count-differs',
  'bad-time',
  'unknown-event',
  'same-id',
] as const;
export type BackupProblemCode = ProblemCode | (typeof BACKUP_PROBLEM_CODES)[number];

export interface BackupProblem extends Omit<Problem, 'code'> {
  readonly code: BackupProblemCode;
}
