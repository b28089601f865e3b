/**
 * The shelf: the yarns and heddles a weaver has, whatever is planned with them.
 *
 * A yarn's weight is known when it is weighed; between weighings it is reckoned from what the warps
 * have taken off it since (`accountOf`). Masses are grams.
 */
import * as v from 'valibot';
import { MM_PER_INCH, type Mm } from '../measure/length.ts';
import type { Grams } from '../measure/mass.ts';
import { fail, ok, type Result } from '../measure/result.ts';
import type { Fibre } from '../measure/sett.ts';
import type { YarnCount } from '../measure/yarnCount.ts';
import { MOST_PROBLEMS, problem, problemOf } from './checkPlan.ts';
import type { Dents, Letter, Yarn } from './plan.ts';
import type { Problem } from './problems.ts';
import { shelfParts } from './schema.ts';

export interface ShelfYarn {
  readonly id: string;
  readonly name: string;
  /** `#rrggbb` */
  readonly colour: string;
  readonly fibre?: Fibre;
  readonly count: YarnCount;
  /** In the order they were taken; empty while nobody has weighed it. */
  readonly weighed: readonly Weighing[];
}

export interface Weighing {
  /** ISO 8601, UTC. */
  readonly at: string;
  /** What the scale said. */
  readonly grams: Grams;
  /** Of that the empty cone, tube or bag. */
  readonly tare?: Grams;
}

/** A heddle or reed. In a rigid heddle slots and holes both count as dents. */
export interface ShelfHeddle {
  readonly id: string;
  readonly name: string;
  readonly dents: Dents;
  /** Weaving width: from the first dent to the last. */
  readonly width: Mm;
}

/** As many weighings are kept as the shelf can ever want to look back on. */
const MOST_WEIGHINGS = 500;

const weighing = v.strictObject({
  at: v.pipe(v.string(), v.isoTimestamp()),
  grams: shelfParts.mass,
  tare: v.exactOptional(shelfParts.mass),
});

const shelfYarn: v.GenericSchema<unknown, ShelfYarn> = v.strictObject({
  id: shelfParts.text,
  ...shelfParts.yarnKind,
  weighed: v.pipe(v.array(weighing), v.maxLength(MOST_WEIGHINGS)),
});

const shelfHeddle: v.GenericSchema<unknown, ShelfHeddle> = v.strictObject({
  id: shelfParts.text,
  name: shelfParts.text,
  dents: shelfParts.dents,
  width: shelfParts.someLength,
});

/** Turns unknown input into a yarn of the shelf, or into everything that is wrong with it. */
export function decodeShelfYarn(input: unknown): Result<ShelfYarn, readonly Problem[]> {
  const read = decoded(shelfYarn, input);
  if (!read.ok) return read;
  const heavy = read.value.weighed.flatMap(heavyTare);
  return heavy.length > 0 ? fail(heavy) : read;
}

/** Turns unknown input into a heddle of the shelf, or into everything that is wrong with it. */
export function decodeShelfHeddle(input: unknown): Result<ShelfHeddle, readonly Problem[]> {
  return decoded(shelfHeddle, input);
}

/** Grams of yarn at the last weighing, without the cone; null while nobody has weighed it. */
export function onHandOf(yarn: ShelfYarn): Grams | null {
  const last = yarn.weighed.at(-1);
  return last === undefined ? null : netOf(last);
}

/** Grams of yarn alone: 212 g on the scale with a cone of 40 g → 172. */
export function netOf({ grams, tare = 0 }: Pick<Weighing, 'grams' | 'tare'>): Grams {
  return grams - tare;
}

/** The yarn with one weighing more, which from then on is what its weight is reckoned from. */
export function weighedAgain(yarn: ShelfYarn, weighing: Weighing): ShelfYarn {
  return { ...yarn, weighed: [...yarn.weighed, weighing].slice(-MOST_WEIGHINGS) };
}

/** The yarn as a plan takes it, under a letter of that plan, with `left` grams on hand. */
export function asPlanYarn(yarn: ShelfYarn, letter: Letter, left: Grams | null): Yarn {
  const { id, weighed, ...kind } = yarn;
  return { letter, ...kind, ...(left === null ? {} : { onHand: left }), shelf: id };
}

/** Distance from dent to dent, as made where that was counted: 12.5 per inch → 2.032 mm. */
export function dentPitch({ count, made, per }: Dents): Mm {
  return (per === 'inch' ? MM_PER_INCH : 100) / (made ?? count);
}

/** The same dents counted over the other width, unrounded: 12.5 per inch → 49.21 per 10 cm. */
export function dentsPerOther({ count, per }: Dents): number {
  return per === 'inch' ? (count * 100) / MM_PER_INCH : (count * MM_PER_INCH) / 100;
}

/** What one warp takes of one yarn. */
export interface YarnUse {
  /** The warp's id and name. */
  readonly warp: string;
  readonly name: string;
  /** Taken since the yarn was last weighed; below nought where picks were taken out again. */
  readonly since: Grams;
  /** Still to be taken before the warp is done. */
  readonly toCome: Grams;
}

export interface YarnAccount {
  readonly uses: readonly YarnUse[];
  /** On hand now: the last weighing less what was taken since, never below nought. */
  readonly left: Grams | null;
  /** Still to be taken by all warps together. */
  readonly toCome: Grams;
  /** `left` − `toCome`; below nought: short by so much. */
  readonly after: Grams | null;
}

/** What is left of a yarn and what is still wanted of it, from the uses of all warps. */
export function accountOf(yarn: ShelfYarn, uses: readonly YarnUse[]): YarnAccount {
  const onHand = onHandOf(yarn);
  const since = uses.reduce((sum, use) => sum + use.since, 0);
  const toCome = uses.reduce((sum, use) => sum + use.toCome, 0);
  const left = onHand === null ? null : Math.max(0, onHand - since);
  return { uses, left, toCome, after: left === null ? null : left - toCome };
}

function decoded<T>(
  schema: v.GenericSchema<unknown, T>,
  input: unknown,
): Result<T, readonly Problem[]> {
  const parsed = v.safeParse(schema, input, { abortPipeEarly: true });
  return parsed.success
    ? ok(parsed.output)
    : fail(parsed.issues.slice(0, MOST_PROBLEMS).map(problemOf));
}

/** A cone cannot be heavier than itself with yarn on it. */
function heavyTare({ grams, tare = 0 }: Weighing, index: number): readonly Problem[] {
  if (tare <= grams) return [];
  return [problem(`weighed[${index}].tare`, 'too-big', String(tare), String(grams))];
}
