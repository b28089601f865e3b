/**
 * The shape of every event, to read a log that a file brings. One row a kind and one field a field:
 * an event that gains one does not compile here until this page can read it.
 */
import * as v from 'valibot';
import {
  CLOTH_READ_STATES,
  type Happening,
  type HappeningKind,
  KEEPS,
  TENSIONS,
} from '../../bench/events.ts';
import { LIMITS } from '../../plan/limits.ts';
import { SHED_WORDS, SIDES } from '../../plan/plan.ts';
import { planParts } from '../../plan/schema.ts';
import { VIEWPOINTS, WARPING_METHODS } from '../../plan/warping/list.ts';

type Of<K extends HappeningKind> = Extract<Happening, { readonly kind: K }>;
type Shapes = {
  readonly [K in HappeningKind]: {
    readonly [F in Exclude<keyof Of<K>, 'kind'>]-?: v.GenericSchema<
      unknown,
      Exclude<Of<K>[F], undefined>
    >;
  };
};

const whole = (least: number, most: number) =>
  v.pipe(v.number(), v.integer(), v.minValue(least), v.maxValue(most));
const between = (least: number, most: number) =>
  v.pipe(v.number(), v.minValue(least), v.maxValue(most));

/** Names given by the app; kept letter for letter. */
export const id = v.pipe(v.string(), v.minLength(1), v.maxLength(LIMITS.name));
export const timestamp = v.pipe(v.string(), v.isoTimestamp());

const picks = whole(0, LIMITS.totalPicks);
const place = whole(0, LIMITS.laidBlocks);
const loomLength = between(0, LIMITS.length);
const grams = between(0, 1_000_000);
const lengths = v.pipe(v.array(loomLength), v.maxLength(LIMITS.pieces));
const words = v.pipe(v.string(), v.maxLength(LIMITS.notes));
const keep = v.picklist(KEEPS);
const viewpoint = v.picklist(VIEWPOINTS);
const way = v.strictObject({
  method: v.picklist(WARPING_METHODS),
  viewpoint,
  seenFrom: viewpoint,
});
const from = v.variant('kind', [
  v.strictObject({ kind: v.literal('start') }),
  v.strictObject({ kind: v.literal('pin'), pin: id }),
]);

const SHAPES: Shapes = {
  thrown: { picks },
  takenOut: { picks },
  woveLength: { loomLength },
  thrownOf: { yarn: planParts.letter, picks },
  woveLengthOf: { yarn: planParts.letter, loomLength },
  freeEnded: {},
  undone: { event: id },
  redone: { event: id },
  otherShed: {},
  placed: {
    pick: picks,
    shed: v.picklist([...SHED_WORDS['rigid-heddle'], ...SHED_WORDS.shaft]),
    sides: v.record(planParts.letter, v.picklist(SIDES)),
  },
  dueDone: { due: id },
  dueDeferred: { due: id },
  advanced: {},
  blockSet: { piece: place, block: place, picks },
  warped: { steps: whole(-LIMITS.totalPicks, LIMITS.totalPicks), way: v.exactOptional(way) },
  cutOff: {},
  pinned: { pin: id },
  measured: { reading: id, loomLength, from, tension: v.picklist(TENSIONS) },
  readingStruck: { reading: id },
  aimRefused: { reading: id },
  blockKept: { piece: place, block: place, by: keep },
  mirrorKept: { piece: place, by: keep },
  revised: { from: place, pieces: v.pipe(v.array(planParts.piece), v.maxLength(LIMITS.pieces)) },
  weighed: { yarn: planParts.letter, grams, tare: grams },
  bobbinChanged: { yarn: planParts.letter },
  clothRead: {
    reading: id,
    piece: place,
    state: v.picklist(CLOTH_READ_STATES),
    lengths: v.exactOptional(lengths),
    widths: v.exactOptional(lengths),
    fringe: v.exactOptional(loomLength),
    mass: v.exactOptional(grams),
  },
  warpRead: {
    reading: id,
    tiedOn: v.exactOptional(loomLength),
    frontWaste: v.exactOptional(loomLength),
    backWaste: v.exactOptional(loomLength),
    gaps: v.exactOptional(lengths),
  },
  endRavelled: { reading: id, piece: place, straightened: loomLength, inCloth: loomLength },
  learntFrom: { piece: place, counts: v.picklist(['in', 'out']) },
  noted: { text: words, piece: v.exactOptional(place) },
  photographed: { photo: id, text: v.exactOptional(words), piece: v.exactOptional(place) },
};

/** An event as a backup has it: its warp is that of its log, and `after` is the event before it unless said. */
export type EventRow = Happening & {
  readonly id: string;
  readonly after?: string | null;
  readonly at: string;
};

const ROWS = Object.fromEntries(
  Object.entries(SHAPES).map(([kind, fields]) => [
    kind,
    v.strictObject({
      id,
      after: v.exactOptional(v.nullable(id)),
      at: timestamp,
      kind: v.literal(kind),
      ...fields,
    }),
  ]),
);

/** The shape of one event of this kind; undefined for a kind this version does not know. */
export function rowOf(kind: unknown): v.GenericSchema<unknown, EventRow> | undefined {
  const row = typeof kind === 'string' && Object.hasOwn(ROWS, kind) ? ROWS[kind] : undefined;
  // The table above ties each kind to its fields; only its rows are told apart no longer.
  return row as v.GenericSchema<unknown, EventRow> | undefined;
}
