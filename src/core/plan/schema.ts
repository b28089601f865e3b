/**
 * The shape of a plan file. `checkPlan` reads input through it and `public/plan.schema.json` is made
 * from it, so the published schema cannot drift from what the app accepts.
 */
import * as v from 'valibot';
import { UNITS } from '../measure/length.ts';
import { FIBRES } from '../measure/sett.ts';
import { COUNT_SYSTEMS } from '../measure/yarnCount.ts';
import { LIMITS } from './limits.ts';
import {
  type Block,
  LOOM_KINDS,
  PLAN_FORMAT,
  PLAN_VERSION,
  type Plan,
  SHED_WORDS,
  SIDES,
  type Stripe,
  WISH_STATES,
} from './plan.ts';

export { LIMITS };

const text = v.pipe(v.string(), v.trim(), v.minLength(1), v.maxLength(LIMITS.name));
const letter = v.pipe(v.string(), v.regex(/^[A-Z]$/));
const whole = (most: number) => v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(most));
const between = (least: number, most: number) =>
  v.pipe(v.number(), v.minValue(least), v.maxValue(most));
const length = between(0, LIMITS.length);
const someLength = between(0.1, LIMITS.length);
const spacing = between(0.05, 100);
const side = v.picklist(SIDES);

const resting = v.variant('mode', [
  v.strictObject({ mode: v.literal('float') }),
  v.strictObject({ mode: v.literal('catch'), every: whole(LIMITS.picks) }),
  v.strictObject({ mode: v.literal('cut') }),
]);

const dents = v.strictObject({
  count: between(0.5, 500),
  per: v.picklist(['inch', '10cm']),
  made: v.exactOptional(between(0.5, 500)),
});

const loom = v.strictObject({
  kind: v.picklist(LOOM_KINDS),
  name: v.exactOptional(text),
  dents,
  endsPerDent: whole(8),
  weavingWidth: someLength,
  frontTieOn: length,
  backWaste: length,
  weavingDepth: someLength,
});

/** What a yarn is, in a plan as on the shelf. */
const yarnKind = {
  name: text,
  colour: v.pipe(v.string(), v.regex(/^#[0-9a-fA-F]{6}$/)),
  fibre: v.exactOptional(v.picklist(FIBRES)),
  count: v.strictObject({
    system: v.picklist(COUNT_SYSTEMS),
    number: between(0.001, 1_000_000),
    plies: whole(100),
  }),
};
const mass = between(0, 1_000_000);

const yarn = v.strictObject({
  letter,
  ...yarnKind,
  onHand: v.exactOptional(mass),
  pickSpacing: v.exactOptional(spacing),
  resting: v.exactOptional(resting),
  shelf: v.exactOptional(text),
});

const centre = v.picklist(['shared', 'doubled']);

const stripe: v.GenericSchema<unknown, Stripe> = v.variant('kind', [
  v.strictObject({ kind: v.literal('solid'), yarn: letter, ends: whole(LIMITS.ends) }),
  v.strictObject({
    kind: v.literal('alternation'),
    cycle: v.pipe(
      v.array(v.strictObject({ yarn: letter, ends: whole(LIMITS.ends) })),
      v.minLength(2),
      v.maxLength(LIMITS.yarns),
    ),
    turns: whole(LIMITS.ends),
  }),
  v.strictObject({
    kind: v.literal('repeat'),
    times: whole(LIMITS.times),
    of: v.pipe(v.array(v.lazy(() => stripe)), v.minLength(1), v.maxLength(LIMITS.blocks)),
  }),
  v.strictObject({
    kind: v.literal('mirror'),
    centre,
    of: v.pipe(v.array(v.lazy(() => stripe)), v.minLength(1), v.maxLength(LIMITS.blocks)),
  }),
]);

const picksExtent = v.strictObject({ kind: v.literal('picks'), picks: whole(LIMITS.picks) });
const turnsExtent = v.strictObject({ kind: v.literal('turns'), turns: whole(LIMITS.picks) });
const lengthExtent = v.strictObject({
  kind: v.literal('length'),
  loomLength: someLength,
  parity: v.exactOptional(v.picklist(['even', 'odd', 'any'])),
});

const wovenBlock = {
  name: v.exactOptional(text),
  pickSpacing: v.exactOptional(spacing),
  resting: v.exactOptional(v.record(letter, resting)),
  starts: v.exactOptional(v.record(letter, side)),
};

const freeBlock = v.strictObject({
  kind: v.literal('free'),
  loomLength: v.exactOptional(someLength),
  ...wovenBlock,
});

const block: v.GenericSchema<unknown, Block> = v.variant('kind', [
  v.strictObject({
    kind: v.literal('solid'),
    yarn: letter,
    extent: v.variant('kind', [picksExtent, lengthExtent]),
    ...wovenBlock,
  }),
  v.strictObject({
    kind: v.literal('alternation'),
    cycle: v.pipe(
      v.array(v.strictObject({ yarn: letter, picks: whole(LIMITS.picks) })),
      v.minLength(2),
      v.maxLength(LIMITS.yarns),
    ),
    path: v.picklist(['round', 'there-and-back']),
    opens: letter,
    closes: v.exactOptional(letter),
    extent: v.variant('kind', [picksExtent, turnsExtent, lengthExtent]),
    ...wovenBlock,
  }),
  v.strictObject({
    kind: v.literal('repeat'),
    name: v.exactOptional(text),
    times: whole(LIMITS.times),
    of: v.pipe(v.array(v.lazy(() => block)), v.minLength(1), v.maxLength(LIMITS.blocks)),
  }),
  v.strictObject({
    kind: v.literal('mirror'),
    name: v.exactOptional(text),
    centre,
    of: v.pipe(v.array(v.lazy(() => block)), v.minLength(1), v.maxLength(LIMITS.blocks)),
  }),
  freeBlock,
]);

const seam = { washedAllowance: length, yarn: v.exactOptional(letter) };
const edge = v.variant('kind', [
  v.strictObject({ kind: v.literal('hemstitch'), fringe: length, twisted: v.boolean() }),
  v.strictObject({ kind: v.literal('hem'), ...seam }),
  v.strictObject({ kind: v.literal('zigzag'), ...seam }),
  v.strictObject({ kind: v.literal('plain'), ...seam }),
]);

const shedWord = v.picklist([...SHED_WORDS['rigid-heddle'], ...SHED_WORDS.shaft]);

const piece = v.strictObject({
  name: text,
  startShed: shedWord,
  startSide: v.exactOptional(side),
  wish: v.exactOptional(v.strictObject({ state: v.picklist(WISH_STATES), length: someLength })),
  beginning: edge,
  ending: edge,
  weft: v.pipe(v.array(block), v.minLength(1), v.maxLength(LIMITS.blocks)),
});

const origin = v.variant('kind', [
  v.strictObject({ kind: v.literal('practice') }),
  v.strictObject({ kind: v.literal('source'), name: text }),
  v.strictObject({ kind: v.literal('typed') }),
  v.strictObject({
    kind: v.literal('washed'),
    pieces: whole(100_000),
    spread: between(0, 1),
    warps: v.exactOptional(whole(100_000)),
    match: v.exactOptional(v.literal('near')),
  }),
]);
const share = (least: number, most: number) =>
  v.strictObject({ share: between(least, most), from: origin });

const warp = v.strictObject({
  order: v.pipe(v.array(stripe), v.minLength(1), v.maxLength(LIMITS.blocks)),
  firstEnd: v.exactOptional(v.picklist(['slot', 'hole'])),
  viewpoint: v.picklist(['front', 'back']),
  floatingSelvedges: v.exactOptional(v.strictObject({ yarn: letter })),
});

const weaving = v.strictObject({
  hand: side,
  workingSide: side,
  pickSpacing: spacing,
  carryLimit: length,
  tailWidths: between(1, 20),
  picksBeforeStitching: whole(100),
  stitchGroup: whole(100),
  newYarnComesUp: v.picklist(['under', 'over']),
  outerFringes: v.picklist(['own-warp', 'from-waste']),
  cuttingAllowance: length,
});

const allowances = v.strictObject({
  drawIn: share(0, 0.5),
  relax: share(-0.1, 0.5),
  shrinkWidth: share(-0.2, 0.6),
  shrinkLength: share(-0.2, 0.6),
  warpTaken: share(0, 0.6),
  weftExtra: share(0, 0.6),
  twist: share(0, 0.5),
});

type PartSchema = <T>(schema: v.GenericSchema<unknown, T>) => v.GenericSchema<unknown, T>;

/** The shape of a plan whose parts are read by what `of` makes of their own schemas. */
export const planSchemaOf = (of: PartSchema): v.GenericSchema<unknown, Plan> =>
  v.strictObject({
    format: v.literal(PLAN_FORMAT),
    version: v.literal(PLAN_VERSION),
    name: text,
    notes: v.exactOptional(v.pipe(v.string(), v.maxLength(LIMITS.notes))),
    units: v.picklist(UNITS),
    loom: of(loom),
    yarns: of(v.pipe(v.array(yarn), v.minLength(1), v.maxLength(LIMITS.yarns))),
    warp: of(warp),
    weaving: of(weaving),
    allowances: of(allowances),
    pieces: v.pipe(v.array(of(piece)), v.minLength(1), v.maxLength(LIMITS.pieces)),
  });

export const planSchema = planSchemaOf((part) => part);

/** What the shelf has in common with a plan. */
export const shelfParts = { text, yarnKind, mass, dents, someLength };

/** The parts that the published schema names; the rest of it is written out in place. */
export const planParts = { letter, resting, loom, yarn, stripe, block, edge, piece, origin };

/** What a motif has in common with a plan. */
export const motifParts = { letter, spacing, stripe, block };
