/** Lengths as they are typed; apart from `length.ts`, because the bench only prints them. */
import { MM_PER_INCH, MM_PER_YARD, type Mm, type Units } from './length.ts';
import { parseSum, type TextProblem } from './quantityText.ts';
import { fail, type Result } from './result.ts';

export type LengthProblem = Exclude<TextProblem, 'nonsense'> | 'not-a-length' | 'too-long';

/** No handloom carries a kilometre of warp: a length beyond it is a slip of the finger. */
const LONGEST: Mm = 1e6;

const UNIT_SIZES: ReadonlyMap<string, Mm> = new Map([
  ...['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'].map(sized(1)),
  ...['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'].map(sized(10)),
  ...['m', 'metre', 'metres', 'meter', 'meters'].map(sized(1000)),
  ...['in', 'ins', 'inch', 'inches', '"'].map(sized(MM_PER_INCH)),
  ...['ft', 'foot', 'feet', "'"].map(sized(12 * MM_PER_INCH)),
  ...['yd', 'yds', 'yard', 'yards'].map(sized(MM_PER_YARD)),
]);

/**
 * Reads a length as a weaver types it, in millimetres: `2 1/2`, `2½`, `2.5"`, `6,5 cm`, `1 yd 4 in`,
 * `3' 2"`. A bare number is inches or centimetres. Refuses what is empty, no length, below
 * nought, beyond a kilometre, or written with a comma that could part thousands (`1,500 yd`).
 */
export function parseLength(text: string, units: Units): Result<Mm, LengthProblem> {
  const sum = parseSum(text, UNIT_SIZES, units === 'inch' ? MM_PER_INCH : 10);
  if (!sum.ok) return fail(sum.problem === 'nonsense' ? 'not-a-length' : sum.problem);
  return sum.value > LONGEST ? fail('too-long') : sum;
}

function sized(size: Mm): (name: string) => readonly [string, Mm] {
  return (name) => [name, size];
}
