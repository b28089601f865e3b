/** Replicas that weave, undo, plan, change the shelf and bring each other's state in, in any order. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Contents, WarpContents } from '../../../../src/core/backup/contents.ts';
import { planImport } from '../../../../src/core/backup/merge/planImport.ts';
import { createMemoryStore } from '../../../../src/store/memory.ts';
import { picksOf, stateOf, timeAt, warpOf } from '../states.ts';

const RUNS = 1000;
/** Merging compares plans and does not read them. */
const PLANS = [{ revision: 0, madeAt: timeAt(0), plan: { name: 'first' } }];

async function joined(here: Contents, there: Contents): Promise<Contents> {
  const store = createMemoryStore();
  await store.addContents(here);
  await store.addContents(planImport(here, there).additions);
  return store.contents();
}

type Deed =
  | { readonly kind: 'weave'; readonly on: number; readonly picks: number }
  | { readonly kind: 'revise'; readonly on: number }
  | { readonly kind: 'begin'; readonly demo: boolean }
  | { readonly kind: 'note'; readonly record: number; readonly minute: number }
  | { readonly kind: 'bringIn'; readonly from: number };

const deed: fc.Arbitrary<Deed> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      kind: fc.constant('weave' as const),
      on: fc.nat(4),
      picks: fc.integer({ min: 1, max: 4 }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('begin' as const), demo: fc.boolean() }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant('note' as const),
      record: fc.nat(2),
      minute: fc.nat(5),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({ kind: fc.constant('bringIn' as const), from: fc.nat(2) }),
  },
);
const revising = fc.record({ kind: fc.constant('revise' as const), on: fc.nat(4) });

const history = (deeds: fc.Arbitrary<Deed>) =>
  fc.array(fc.tuple(fc.nat(2), deeds), { maxLength: 14 });
const chains = history(deed);
const withPlans = history(
  fc.oneof({ weight: 4, arbitrary: deed }, { weight: 1, arbitrary: revising }),
);

type Three = readonly [Contents, Contents, Contents];

/** Three devices that began with one warp and then lived through `deeds`. */
async function lived(deeds: readonly (readonly [number, Deed])[]): Promise<Three> {
  const first = stateOf([warpOf('w', picksOf('c', 3), { plans: PLANS })]);
  const states = [first, first, first];
  for (const [n, [device, it]] of deeds.entries()) {
    const now = states[device] ?? first;
    states[device] =
      it.kind === 'bringIn' ? await joined(now, states[it.from] ?? first) : after(now, it, `${n}.`);
  }
  const [a = first, b = first, c = first] = states;
  return [a, b, c];
}

function after(state: Contents, it: Exclude<Deed, { kind: 'bringIn' }>, mark: string): Contents {
  switch (it.kind) {
    case 'weave':
      return having(state, it.on, ({ warp, log, ...rest }) => ({
        ...rest,
        warp,
        log: picksOf(mark, it.picks, log, warp.id),
      }));
    case 'revise':
      return having(state, it.on, (on) => ({ ...on, plans: [...on.plans, planOf(on, mark)] }));
    case 'begin': {
      const begun = warpOf(`n${mark}`, [], { head: { demo: it.demo }, plans: PLANS });
      return { ...state, warps: [...state.warps, begun] };
    }
    case 'note': {
      const [id, at] = [`r${it.record}`, timeAt(it.minute)];
      const others = state.records.filter((other) => other.id !== id);
      const record = { kind: 'yarn', id, changedAt: at, body: { name: mark } };
      return { ...state, records: [...others, record] };
    }
  }
}

function having(state: Contents, on: number, change: (it: WarpContents) => WarpContents): Contents {
  const at = on % Math.max(1, state.warps.length);
  return { ...state, warps: state.warps.map((it, n) => (n === at ? change(it) : it)) };
}

function planOf({ plans }: WarpContents, mark: string) {
  return { revision: plans.length, madeAt: timeAt(1), plan: { name: mark } };
}

const rootOf = ({ warp }: WarpContents) =>
  `${warp.demo ? 'demo' : 'own'} ${warp.branchOf?.warp ?? warp.id}`;

/** Each way a warp was woven, as its events in order: prefixes of longer ones left out. */
function linesIn(...states: readonly Contents[]): readonly string[] {
  const all = states.flatMap(({ warps }) =>
    warps.map((it) => `${rootOf(it)}: ${it.log.map(({ id }) => `${id} `).join('')}`),
  );
  return [
    ...new Set(all.filter((line) => !all.some((it) => it !== line && it.startsWith(line)))),
  ].sort();
}

/** Every event of every family, once. */
function eventsIn(...states: readonly Contents[]): readonly string[] {
  const all = states.flatMap(({ warps }) =>
    warps.flatMap((it) => it.log.map(({ id }) => `${rootOf(it)} ${id}`)),
  );
  return [...new Set(all)].sort();
}

const newestOf = ({ records }: Contents) => records.map((it) => JSON.stringify(it)).sort();

async function law(
  deeds: fc.Arbitrary<readonly (readonly [number, Deed])[]>,
  check: (...three: Three) => Promise<void>,
): Promise<void> {
  const property = fc.asyncProperty(deeds, async (it) => check(...(await lived(it))));
  await fc.assert(property, { numRuns: RUNS });
}

describe('bringing one state into another', { timeout: 120_000 }, () => {
  it('unites: every event of both, and every way either was woven, and no other', async () => {
    await law(chains, async (a, b) => {
      const both = await joined(a, b);
      expect(eventsIn(both)).toEqual(eventsIn(a, b));
      expect(linesIn(both)).toEqual(linesIn(a, b));
    });
  });

  it('is commutative: which of the two was here first tells only who keeps an id', async () => {
    await law(chains, async (a, b) => {
      const [ab, ba] = [await joined(a, b), await joined(b, a)];
      expect(linesIn(ab)).toEqual(linesIn(ba));
      expect(newestOf(ab)).toEqual(newestOf(ba));
    });
  });

  it('is associative over three', async () => {
    await law(chains, async (a, b, c) => {
      const left = await joined(await joined(a, b), c);
      const right = await joined(a, await joined(b, c));
      expect(linesIn(left)).toEqual(linesIn(right));
      expect(eventsIn(left)).toEqual(eventsIn(a, b, c));
      expect(newestOf(left)).toEqual(newestOf(right));
    });
  });

  it('is idempotent: the second time changes nothing at all', async () => {
    await law(withPlans, async (a, b) => {
      const both = await joined(a, b);
      expect(await joined(both, b)).toEqual(both);
      expect(await joined(both, a)).toEqual(both);
      expect(await joined(a, a)).toEqual(await joined(a, stateOf([])));
    });
  });

  it('takes nothing away: every warp here is there with its plans, and its log begins as it did', async () => {
    await law(withPlans, async (a, b) => {
      const both = await joined(a, b);
      for (const { warp, plans, log } of a.warps) {
        const now = both.warps.find((it) => it.warp.id === warp.id);
        expect(now?.log.slice(0, log.length)).toEqual(log);
        expect(now?.plans.slice(0, plans.length)).toEqual(plans);
        expect(now?.warp.demo).toBe(warp.demo);
      }
    });
  });

  it('loses no plan of either', async () => {
    await law(withPlans, async (a, b) => {
      const plansIn = (...states: readonly Contents[]) => {
        const all = states.flatMap(({ warps }) =>
          warps.flatMap((it) =>
            it.plans.map(({ plan }) => `${rootOf(it)} ${JSON.stringify(plan)}`),
          ),
        );
        return [...new Set(all)].sort();
      };
      expect(plansIn(await joined(a, b))).toEqual(plansIn(a, b));
    });
  });
});
