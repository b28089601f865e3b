/**
 * A draft read back from storage: whole enough to be edited, though it need not be a plan. Its
 * numbers and letters may be anything of the right kind; `checkPlan` says what is wrong with them.
 */
import * as v from 'valibot';
import { ALLOWANCE_NAMES, LOOM_KINDS, type Plan } from './plan.ts';

const part = v.looseObject({});
const rows: v.GenericSchema<unknown> = v.array(
  v.looseObject({
    kind: v.string(),
    of: v.optional(v.lazy(() => rows)),
    cycle: v.optional(v.array(part)),
  }),
);
const edge = v.looseObject({ kind: v.string() });

const draftShape = v.looseObject({
  name: v.string(),
  units: v.picklist(['inch', 'metric']),
  loom: v.looseObject({
    kind: v.picklist(LOOM_KINDS),
    dents: v.looseObject({ count: v.number() }),
  }),
  yarns: v.array(
    v.looseObject({
      letter: v.string(),
      name: v.string(),
      colour: v.pipe(v.string(), v.regex(/^#[0-9a-fA-F]{6}$/)),
      count: v.looseObject({ system: v.string(), number: v.number() }),
    }),
  ),
  warp: v.looseObject({ order: rows }),
  weaving: v.looseObject({ pickSpacing: v.number() }),
  allowances: v.looseObject(
    Object.fromEntries(
      ALLOWANCE_NAMES.map((name) => [name, v.looseObject({ share: v.number(), from: part })]),
    ),
  ),
  pieces: v.array(v.looseObject({ name: v.string(), beginning: edge, ending: edge, weft: rows })),
});

/** Whether the Plan screen can show this: every part it opens is there and of its kind. */
export function isDraft(input: unknown): input is Plan {
  return v.safeParse(draftShape, input).success;
}
