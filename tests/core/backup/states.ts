/** States to back up: by hand, and random ones aimed at what a file could lose or bend. */
import fc from 'fast-check';
import type {
  Contents,
  RecordCopy,
  WarpContents,
  WarpHead,
} from '../../../src/core/backup/contents.ts';
import {
  CLOTH_READ_STATES,
  type Happening,
  type LogEvent,
} from '../../../src/core/bench/events.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { anyPlan, happening } from '../bench/arbitraries.ts';
import { BASE, demo, pieceOf, solid } from '../plan/samples.ts';

const NINE = Date.parse('2026-03-01T09:00:00.000Z');

export const timeAt = (minutes: number) => new Date(NINE + minutes * 60_000).toISOString();

export function headOf(id: string, changes: Partial<WarpHead> = {}): WarpHead {
  return { id, name: `Warp ${id}`, demo: false, madeAt: timeAt(0), wovenAt: null, ...changes };
}

/** Picks of a device, chained behind `before`: ids are the device's name and a number. */
export function picksOf(
  device: string,
  count: number,
  before: readonly LogEvent[] = [],
  warp = 'w',
): readonly LogEvent[] {
  const picks = Array.from({ length: count }, (_, n): LogEvent => {
    const after = n === 0 ? (before.at(-1)?.id ?? null) : `${device}${n - 1}`;
    const at = timeAt(before.length + n);
    return { id: `${device}${n}`, warp, after, at, kind: 'thrown', picks: 1 };
  });
  return [...before, ...picks];
}

/** A plan of 500 picks in one piece. */
export const LONG_PLAN: Plan = { ...BASE, name: 'Long', pieces: [pieceOf([solid('A', 500)])] };

export function warpOf(
  id: string,
  log: readonly LogEvent[],
  changes: Partial<WarpContents> & { readonly head?: Partial<WarpHead> } = {},
): WarpContents {
  const { head, ...rest } = changes;
  return {
    warp: headOf(id, { wovenAt: log.at(-1)?.at ?? null, ...head }),
    plans: [{ revision: 0, madeAt: timeAt(0), plan: LONG_PLAN }],
    log: log.map((event) => ({ ...event, warp: id })),
    ...rest,
  };
}

export function stateOf(warps: readonly WarpContents[], more: Partial<Contents> = {}): Contents {
  return { warps, records: [], settings: [], ...more };
}

/** Any value JSON can carry, with the keys and texts that hurt. */
const sore = fc.constantFrom(
  '__proto__',
  'constructor',
  'toString',
  '',
  'a,b',
  '"',
  '\ud800',
  '\0',
  'ß',
);
export const anyJson: fc.Arbitrary<unknown> = fc.letrec<{ value: unknown }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 3, depthSize: 'small' },
    fc.oneof(
      fc.constant(null),
      fc.boolean(),
      fc.integer(),
      // Negative nought is the one number that JSON does not carry.
      fc.double({ noNaN: true, noDefaultInfinity: true }).map((n) => (n === 0 ? 0 : n)),
      fc.string({ unit: 'binary' }),
      sore,
    ),
    fc.array(tie('value'), { maxLength: 3 }),
    fc.array(fc.tuple(fc.oneof(sore, fc.string()), tie('value')), { maxLength: 3 }).map(objectOf),
  ),
})).value;

/** Also `__proto__` becomes a key of its own, as a parser of JSON makes it. */
function objectOf(entries: readonly (readonly [string, unknown])[]): object {
  return Object.fromEntries(entries);
}

const id = fc
  .tuple(fc.constantFrom('a', 'b', 'k3', '__proto__', 'toString'), fc.nat(99))
  .map(([name, n]) => `${name}${n === 0 ? '' : n}`);
const time = fc.integer({ min: -500_000, max: 500_000 }).map(timeAt);
const title = fc.oneof(
  fc.constantFrom('Towels', '=1+1', ''),
  fc.string({ unit: 'binary', maxLength: 40 }),
);

/** Kinds of event that the bench's own random logs leave out. */
const others: fc.Arbitrary<Happening> = fc.oneof(
  fc.record({ kind: fc.constant('undone' as const), event: id }),
  fc.record({ kind: fc.constant('redone' as const), event: id }),
  fc.record({ kind: fc.constant('warped' as const), steps: fc.integer({ min: -50, max: 50 }) }),
  fc.constant<Happening>({
    kind: 'warped',
    steps: 3,
    way: { method: 'direct', viewpoint: 'front', seenFrom: 'back' },
  }),
  fc.record({
    kind: fc.constant('thrownOf' as const),
    yarn: fc.constantFrom('A', 'B'),
    picks: fc.nat(9),
  }),
  fc.record({
    kind: fc.constant('woveLengthOf' as const),
    yarn: fc.constantFrom('A', 'B'),
    loomLength: fc.nat(90),
  }),
  fc.constant<Happening>({ kind: 'freeEnded' }),
  fc.record({ kind: fc.constant('pinned' as const), pin: id }),
  fc.record({
    kind: fc.constant('measured' as const),
    reading: id,
    loomLength: fc.integer({ min: 0, max: 4000 }).map((n) => n / 8),
    from: fc.oneof(
      fc.constant({ kind: 'start' as const }),
      fc.record({ kind: fc.constant('pin' as const), pin: id }),
    ),
    tension: fc.constantFrom('tight' as const, 'eased' as const),
  }),
  fc.record({ kind: fc.constant('readingStruck' as const), reading: id }),
  fc.record({ kind: fc.constant('aimRefused' as const), reading: id }),
  fc.record({
    kind: fc.constant('blockKept' as const),
    piece: fc.nat(3),
    block: fc.nat(9),
    by: fc.constantFrom('length' as const, 'picks' as const),
  }),
  fc.record({
    kind: fc.constant('mirrorKept' as const),
    piece: fc.nat(3),
    by: fc.constantFrom('length' as const, 'picks' as const),
  }),
  fc.record({
    kind: fc.constant('revised' as const),
    from: fc.nat(2),
    pieces: fc.constantFrom([], [pieceOf([solid('A', 12)])]),
  }),
  fc.record({
    kind: fc.constant('weighed' as const),
    yarn: fc.constantFrom('A', 'B'),
    grams: fc.nat(500),
    tare: fc.nat(80),
  }),
  fc.record({ kind: fc.constant('bobbinChanged' as const), yarn: fc.constantFrom('A', 'B') }),
  fc.record(
    {
      kind: fc.constant('clothRead' as const),
      reading: id,
      piece: fc.nat(3),
      state: fc.constantFrom(...CLOTH_READ_STATES),
      lengths: fc.array(fc.nat(900), { maxLength: 3 }),
      widths: fc.array(fc.nat(900), { maxLength: 3 }),
      fringe: fc.nat(90),
      mass: fc.nat(500),
    },
    { requiredKeys: ['kind', 'reading', 'piece', 'state'] },
  ),
  fc.record(
    {
      kind: fc.constant('warpRead' as const),
      reading: id,
      tiedOn: fc.nat(300),
      frontWaste: fc.nat(300),
      backWaste: fc.nat(300),
      gaps: fc.array(fc.nat(90), { maxLength: 3 }),
    },
    { requiredKeys: ['kind', 'reading'] },
  ),
  fc.record({
    kind: fc.constant('endRavelled' as const),
    reading: id,
    piece: fc.nat(3),
    straightened: fc.nat(300),
    inCloth: fc.nat(300),
  }),
  fc.record({
    kind: fc.constant('learntFrom' as const),
    piece: fc.nat(3),
    counts: fc.constantFrom('in' as const, 'out' as const),
  }),
  fc.record(
    { kind: fc.constant('noted' as const), text: title, piece: fc.nat(3) },
    { requiredKeys: ['kind', 'text'] },
  ),
  fc.record(
    { kind: fc.constant('photographed' as const), photo: id, text: title, piece: fc.nat(3) },
    { requiredKeys: ['kind', 'photo'] },
  ),
);

/** A log, mostly a chain; here and there an event that follows another one, as a mishap leaves it. */
function anyLog(plan: Plan, warp: string): fc.Arbitrary<readonly LogEvent[]> {
  const step = fc.record({
    it: fc.oneof({ weight: 3, arbitrary: happening(plan) }, { weight: 2, arbitrary: others }),
    after: fc.option(fc.option(id), { nil: undefined, freq: 12 }),
    at: time,
  });
  return fc.array(step, { maxLength: 8 }).map((steps) =>
    steps.map(({ it, after, at }, n): LogEvent => {
      const before = n === 0 ? null : `e${n - 1}`;
      return { ...it, id: `e${n}`, warp, after: after === undefined ? before : after, at };
    }),
  );
}

/** Plans cost more to make than all the rest, so most are known ones. */
const plan: fc.Arbitrary<Plan> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(BASE, LONG_PLAN, demo('moss-and-chalk') as Plan) },
  { weight: 1, arbitrary: anyPlan },
);

const anyWarp: fc.Arbitrary<WarpContents> = fc
  .tuple(id, plan)
  .chain(([warp, first]) =>
    anyWarpOf(warp, first).map((it) =>
      it.plans.every((own) => own.plan === first) ? it : marked(it),
    ),
  );

/** As the app keeps a warp that came with a plan it cannot read. */
function marked({ warp, ...rest }: WarpContents): WarpContents {
  return { warp: { ...warp, plansUnread: true }, ...rest };
}

function anyWarpOf(warp: string, first: Plan): fc.Arbitrary<WarpContents> {
  return fc.record({
    warp: fc
      .record({
        name: title,
        demo: fc.boolean(),
        madeAt: time,
        wovenAt: fc.option(time),
        branchOf: fc.option(
          fc.record({ warp: id, from: id, settled: fc.option(fc.constant(true as const)) }),
          { nil: undefined },
        ),
      })
      .map(({ branchOf, ...head }): WarpHead => {
        if (branchOf === undefined) return { id: warp, ...head };
        const { settled, ...origin } = branchOf;
        return {
          id: warp,
          ...head,
          branchOf: settled === null ? origin : { ...origin, settled },
        };
      }),
    plans: fc
      .array(fc.tuple(fc.nat(9), time, fc.oneof(fc.constant(first), anyJson)), { maxLength: 2 })
      .map((later) => [
        { revision: 0, madeAt: timeAt(0), plan: first },
        ...later.map(([n, madeAt, it], k) => ({ revision: 1 + 10 * k + n, madeAt, plan: it })),
      ]),
    log: anyLog(first, warp),
  });
}

const anyRecord: fc.Arbitrary<RecordCopy> = fc.record({
  kind: fc.constantFrom('draft', 'yarn', 'heddle', 'later'),
  id,
  changedAt: time,
  body: fc.oneof(anyJson, fc.constant(BASE)),
});

export const anyContents: fc.Arbitrary<Contents> = fc.record({
  warps: fc.uniqueArray(anyWarp, { maxLength: 4, selector: ({ warp }) => warp.id }),
  records: fc.uniqueArray(anyRecord, {
    maxLength: 5,
    selector: (it) => `${it.kind} ${it.id}`,
  }),
  settings: fc.uniqueArray(
    fc.record({ name: fc.constantFrom('settings', 'weaving', '__proto__', 'x'), value: anyJson }),
    { maxLength: 3, selector: ({ name }) => name },
  ),
});
