/** A photo as it is kept beside the log: scaled down, as text, so that a backup can hold it. */
import * as v from 'valibot';
import { fail, ok, type Result } from '../measure/result.ts';
import { MOST_PROBLEMS, problemOf } from '../plan/checkPlan.ts';
import type { Problem } from '../plan/problems.ts';

export const PHOTO_VERSION = 1;
/** Pixels of the longer side: sharp on a page, small enough to keep many. */
export const PHOTO_SIDE = 1600;
/** Characters of base64: nothing scaled to that side comes near it. */
const MOST_DATA = 6_000_000;

export interface Photo {
  readonly version: typeof PHOTO_VERSION;
  readonly id: string;
  /** ISO 8601, UTC: when it was put in. */
  readonly at: string;
  readonly type: 'image/jpeg';
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  /** The file, as base64. */
  readonly data: string;
}

const side = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(10_000));

const photo: v.GenericSchema<unknown, Photo> = v.strictObject({
  version: v.literal(PHOTO_VERSION),
  id: v.pipe(v.string(), v.minLength(1)),
  at: v.pipe(v.string(), v.isoTimestamp()),
  type: v.literal('image/jpeg'),
  width: side,
  height: side,
  data: v.pipe(v.string(), v.minLength(1), v.maxLength(MOST_DATA), v.base64()),
});

/** Turns unknown input into a photo, or into everything that is wrong with it. */
export function decodePhoto(input: unknown): Result<Photo, readonly Problem[]> {
  const parsed = v.safeParse(photo, input, { abortPipeEarly: true });
  return parsed.success
    ? ok(parsed.output)
    : fail(parsed.issues.slice(0, MOST_PROBLEMS).map(problemOf));
}
