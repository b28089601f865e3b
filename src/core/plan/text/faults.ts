/** Why a typed order cannot be read. Words for people are made in `ui/textFaults.ts`. */

export const TEXT_FAULT_CODES = [
  'empty',
  'too-much',
  'too-deep',
  'too-many',
  'too-few',
  'number-wanted',
  'yarn-wanted',
  'unknown-word',
  'bracket-wanted',
  'bracket-unclosed',
  'bracket-unopened',
  'not-whole',
  'too-small',
  'too-big',
  'ambiguous-comma',
  'not-a-length',
  'not-in-a-warp',
  'not-in-a-weft',
] as const;
export type TextFaultCode = (typeof TEXT_FAULT_CODES)[number];

export interface TextFault {
  readonly code: TextFaultCode;
  /** Half-open range of characters at fault; empty where something is missing. */
  readonly from: number;
  readonly until: number;
  /** What stands there, shortened. */
  readonly got: string;
  /** What would be right there: a number, a bracket, a list of words. */
  readonly right: string;
}
