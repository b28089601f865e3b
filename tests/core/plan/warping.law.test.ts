import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Letter, Plan, Stripe } from '../../../src/core/plan/plan.ts';
import { endsAfter, openingsAfter } from '../../../src/core/plan/warping/heddle.ts';
import { CARRY_ON_BEAM } from '../../../src/core/plan/warping/joins.ts';
import type { Viewpoint, WarpingList, WarpingStep } from '../../../src/core/plan/warping/list.ts';
import { usualWay, warpingList, warpingMethods } from '../../../src/core/plan/warping.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import { BASE, checked, yarns } from './samples.ts';
import { warpByHand } from './warpByHand.ts';

interface Runs {
  readonly runs: readonly { readonly yarn: Letter; readonly ends: number }[];
}

/** Runs aimed at what goes wrong: single ends, odd runs, colours in turn, stripes longer than a step. */
const run = (letters: string) =>
  fc.record({
    yarn: fc.constantFrom(...letters),
    ends: fc.oneof(
      { weight: 4, arbitrary: fc.constantFrom(1, 2, 3) },
      { weight: 2, arbitrary: fc.integer({ min: 4, max: 9 }) },
      { weight: 1, arbitrary: fc.integer({ min: 20, max: 70 }) },
    ),
  });
const runs = fc
  .constantFrom('A', 'AB', 'AB', 'ABC', 'ABCD')
  .chain((letters) => fc.array(run(letters), { minLength: 1, maxLength: 14 }));
/** The same few ends over and over. */
const inTurn = fc
  .tuple(fc.array(run('AB'), { minLength: 1, maxLength: 3 }), fc.integer({ min: 2, max: 20 }))
  .map(([round, times]) => Array.from({ length: times }, () => round).flat())
  .filter((all) => all.reduce((sum, it) => sum + it.ends, 0) < 400);
const warp: fc.Arbitrary<Runs> = fc.record({ runs: fc.oneof(runs, inTurn) });

interface Case {
  readonly plan: Plan;
  readonly ends: readonly Letter[];
}

const looms = (kind: Plan['loom']['kind']) =>
  fc
    .record({
      warp,
      each: fc.oneof({ weight: 3, arbitrary: fc.constant(1) }, fc.constantFrom(1, 2, 3)),
      firstEnd: fc.constantFrom('slot' as const, 'hole' as const),
      viewpoint: fc.constantFrom<Viewpoint>('front', 'back'),
      dents: fc.constantFrom(5, 7.5, 12.5),
      width: fc.integer({ min: 3500, max: 3600 }),
    })
    .map((it): Case => {
      const order = it.warp.runs.map(({ yarn, ends }): Stripe => ({ kind: 'solid', yarn, ends }));
      const ends = it.warp.runs.flatMap(({ yarn, ends: n }) => Array<Letter>(n).fill(yarn));
      const { viewpoint } = it;
      return {
        ends,
        plan: checked({
          ...BASE,
          yarns: yarns('ABCDE'),
          loom: {
            ...BASE.loom,
            kind,
            endsPerDent: it.each,
            dents: { count: it.dents, per: 'inch' },
            weavingWidth: it.width,
          },
          warp:
            kind === 'shaft' ? { order, viewpoint } : { order, viewpoint, firstEnd: it.firstEnd },
          pieces: BASE.pieces.map((piece) => ({
            ...piece,
            startShed: kind === 'shaft' ? 'odd' : 'up',
          })),
        }),
      };
    });
const heddles = looms('rigid-heddle');
const anyLoom = fc.oneof(heddles, looms('shaft'));
const seen = fc.constantFrom<Viewpoint>('front', 'back');

const asSeen = ({ plan, ends }: Case, viewpoint: Viewpoint) =>
  viewpoint === plan.warp.viewpoint ? ends : ends.toReversed();
const direct = (plan: Plan, viewpoint: Viewpoint) =>
  warpingList(plan, { method: 'direct', viewpoint, warpLength: 2000 });
const ties = (list: WarpingList) =>
  list.slots.flatMap((slot, k) =>
    slot.ties.map((yarns) => ({ k, yarns: [...yarns].sort().join() })),
  );

describe('direct warping', () => {
  it('done as told, it puts exactly the plan’s ends into slots and holes by turns', () => {
    fc.assert(
      fc.property(heddles, seen, (it, viewpoint) => {
        const each = it.plan.loom.endsPerDent;
        const { ends } = warpByHand(direct(it.plan, viewpoint), each);
        expect(ends.map((end) => end.yarn)).toEqual(asSeen(it, viewpoint));
        const kinds = viewpoint === it.plan.warp.viewpoint ? ends : ends.toReversed();
        const firstIs = it.plan.warp.firstEnd === 'slot' ? 0 : 1;
        expect(kinds.map((end) => end.in)).toEqual(
          kinds.map((_, i) => ((Math.floor(i / each) + firstIs) % 2 === 0 ? 'slot' : 'hole')),
        );
      }),
      { numRuns: 200 },
    );
  });

  it('two ends a loop and the single ones are all ends; colours sum to them too', () => {
    fc.assert(
      fc.property(heddles, seen, (it, viewpoint) => {
        const list = direct(it.plan, viewpoint);
        expect(list.ends).toBe(it.ends.length);
        expect(2 * list.loops + list.singles).toBe(list.ends);
        expect(list.yarns.reduce((sum, yarn) => sum + yarn.ends, 0)).toBe(list.ends);
        const loops = list.yarns.reduce((sum, yarn) => sum + yarn.loops, 0);
        expect(loops + ties(list).length).toBe(list.loops);
      }),
    );
  });

  it('seen from the other side it is the same work from the other end', () => {
    fc.assert(
      fc.property(heddles, ({ plan }) => {
        const [front, back] = [direct(plan, 'front'), direct(plan, 'back')];
        const holds = (list: WarpingList) =>
          list.slots.map(({ stays, moves, loops }) =>
            [stays, moves, loops].map((it) => it.join('')),
          );
        const turned = (list: WarpingList) =>
          list.slots
            .toReversed()
            .map(({ stays, moves, loops }) =>
              [stays, moves, loops].map((it) => it.toReversed().join('')),
            );
        expect(holds(back)).toEqual(turned(front));
        expect(back.holeSide).not.toBe(front.holeSide);
        const last = front.start.index + front.slots.length - 1;
        expect(back.start.index).toBe(front.start.of - 1 - last);
      }),
    );
  });

  it('never ties where two neighbours could have swapped', () => {
    fc.assert(
      fc.property(heddles, ({ plan }) => {
        fc.pre(plan.loom.endsPerDent === 1);
        const tied = ties(direct(plan, 'front'));
        const missed = tied.filter(({ k, yarns }, i) => {
          const before = tied[i - 1];
          return before?.k === k - 1 && before.yarns === yarns;
        });
        expect(missed).toEqual([]);
      }),
    );
  });

  it('with the change it proposes there is a tie fewer, and as many ends as before', () => {
    let mended = 0;
    fc.assert(
      fc.property(heddles, ({ plan }) => {
        const list = direct(plan, plan.warp.viewpoint);
        for (const place of list.oddPlaces) {
          if (place.kind !== 'tie' || place.mend === null) continue;
          mended++;
          const after = direct(withMend(plan, place.mend), plan.warp.viewpoint);
          expect(after.ends).toBe(list.ends);
          expect(ties(after).length).toBeLessThan(ties(list).length);
        }
      }),
    );
    expect(mended).toBeGreaterThan(20);
  });

  it('what is dropped is picked up there, within reach; what is cut is tied on anew', () => {
    fc.assert(
      fc.property(heddles, seen, ({ plan }, viewpoint) => {
        const list = direct(plan, viewpoint);
        for (const { letter } of plan.yarns) checkStrand(list, letter, slotWidth(plan));
      }),
    );
  });
});

function withMend(plan: Plan, mend: readonly { readonly run: number; readonly becomes: number }[]) {
  const merged: { kind: 'solid'; yarn: Letter; ends: number }[] = [];
  for (const stripe of plan.warp.order) {
    if (stripe.kind !== 'solid') throw new Error('wanted solids');
    const last = merged.at(-1);
    if (last?.yarn === stripe.yarn) last.ends += stripe.ends;
    else merged.push({ ...stripe });
  }
  const order = merged.map((stripe, i) => {
    const change = mend.find((it) => it.run === i);
    return change === undefined ? stripe : { ...stripe, ends: change.becomes };
  });
  return checked({ ...plan, warp: { ...plan.warp, order } });
}

const slotWidth = ({ loom }: Plan) => (2 * 25.4) / loom.dents.count;

type Join = Extract<WarpingStep, { phase: 'loops' }>['joins'][number];

/** Follows one strand of yarn from step to step: it can only be where it was left. */
function checkStrand(list: WarpingList, yarn: Letter, slot: number): void {
  let left: Join['ends'] | null = null;
  let leftAt = -1;
  let step = -1;
  list.steps.forEach((it, i) => {
    const join = it.phase === 'loops' ? it.joins.find((one) => one.yarn === yarn) : undefined;
    if (it.phase !== 'loops' || join === undefined) return;
    switch (join.begins.kind) {
      case 'goes-on':
        expect([left?.kind, step]).toEqual(['goes-on', i - 1]);
        break;
      case 'pick-up':
        expect(left?.kind).toBe('drop');
        expect(join.begins.from).toBe(leftAt);
        expect((it.from - leftAt) * slot).toBeLessThanOrEqual(CARRY_ON_BEAM + 6 * slot);
        break;
      case 'tie-on':
      case 'at-peg':
        expect(['cut', 'at-peg', undefined]).toContain(left?.kind);
        break;
    }
    left = join.ends;
    leftAt = lastSlotOf(list, i, yarn);
    step = i;
  });
  expect(['cut', 'at-peg', undefined]).toContain((left as Join['ends'] | null)?.kind);
}

/** The last slot of a step that takes a loop or an end of this yarn. */
function lastSlotOf(list: WarpingList, i: number, yarn: Letter): number {
  const step = list.steps[i];
  if (step?.phase !== 'loops') return -1;
  for (let k = step.to - 1; k >= step.from; k--) {
    const slot = list.slots[k];
    const held = [...(slot?.loops ?? []), ...(slot?.ties ?? []).flat(), slot?.single];
    if (held.includes(yarn)) return k;
  }
  return -1;
}

describe('threading end by end', () => {
  it('the groups are the plan’s ends in order, at most 24 each', () => {
    fc.assert(
      fc.property(anyLoom, seen, (it, viewpoint) => {
        const list = warpingList(it.plan, { method: 'ends', viewpoint, warpLength: 2000 });
        const groups = list.steps.filter((step) => step.kind === 'thread');
        const told = groups.flatMap((step) =>
          step.runs.flatMap((one) => Array<Letter>(one.count).fill(one.of)),
        );
        expect(told).toEqual(asSeen(it, viewpoint));
        let end = 0;
        for (const group of groups) {
          expect(group.from).toBe(end);
          end = group.to;
          expect(group.to - group.from).toBeLessThanOrEqual(24);
        }
        expect(end).toBe(list.ends);
      }),
    );
  });

  it('every end keeps its shaft, slot or hole and its dent, whichever side it is seen from', () => {
    fc.assert(
      fc.property(anyLoom, ({ plan }) => {
        const places = (viewpoint: Viewpoint) =>
          warpingList(plan, { method: 'ends', viewpoint, warpLength: 2000 }).threads.map(
            ({ place }) =>
              place.kind === 'shaft'
                ? { kind: place.shaft, at: place.dent }
                : { kind: place.kind, at: 0 },
          );
        const [front, back] = [places('front'), places('back')];
        const last = Math.max(...front.map((it) => it.at));
        expect(back.map((it) => it.kind)).toEqual(front.map((it) => it.kind).toReversed());
        expect(back.map((it) => last - it.at).toReversed()).toEqual(front.map((it) => it.at));
      }),
    );
  });

  it('a dent holds as many ends as planned, the last perhaps fewer', () => {
    fc.assert(
      fc.property(looms('shaft'), ({ plan, ends }) => {
        const { viewpoint } = plan.warp;
        const { threads } = warpingList(plan, { method: 'ends', viewpoint, warpLength: 2000 });
        const dents = threads.map(({ place }) => (place.kind === 'shaft' ? place.dent : -1));
        expect(dents).toEqual(ends.map((_, i) => Math.floor(i / plan.loom.endsPerDent)));
      }),
    );
  });
});

describe('any list', () => {
  const lists = fc.tuple(anyLoom, seen, fc.nat(1)).map(([it, viewpoint, m]) => {
    const methods = warpingMethods(it.plan);
    const method = methods[m % methods.length] ?? 'ends';
    return { ...it, list: warpingList(it.plan, { method, viewpoint, warpLength: 2000 }) };
  });

  it('counts every colour up to its ends in every phase, and never down', () => {
    fc.assert(
      fc.property(lists, ({ list, ends }) => {
        const wanted = list.yarns.map(({ yarn }) => ends.filter((end) => end === yarn).length);
        expect(list.yarns.map((yarn) => yarn.ends)).toEqual(wanted);
        list.steps.forEach((step, i) => {
          const next = list.steps[i + 1];
          if (['setup', 'wind', 'floating'].includes(step.phase)) return;
          const counts = step.soFar.map((it) => it.ends);
          if (next?.phase === step.phase) {
            next.soFar.forEach((it, k) => {
              expect(it.ends).toBeGreaterThanOrEqual(counts[k] ?? 0);
            });
          } else expect(counts).toEqual(wanted);
        });
      }),
    );
  });

  it('has different ids, and phases one after the other', () => {
    fc.assert(
      fc.property(lists, ({ list }) => {
        expect(new Set(list.steps.map((step) => step.id)).size).toBe(list.steps.length);
        const phases = list.steps.map((step) => step.phase);
        const order = phases.filter((phase, i) => phase !== phases[i - 1]);
        expect(order).toEqual([...new Set(order)]);
      }),
    );
  });

  it('begins where the planner puts the first end', () => {
    fc.assert(
      fc.property(anyLoom, ({ plan }) => {
        const way = usualWay(plan);
        const { start } = warpingList(plan, { ...way, method: 'ends', warpLength: 2000 });
        const { first, firstSlot } = sheetOf(plan).dents;
        expect(start.index).toBe(firstSlot ?? first);
      }),
      { numRuns: 40 },
    );
  });
});

describe('the heddle beside the list', () => {
  it('shows each step’s slots as it will leave them, and in the end the whole warp', () => {
    fc.assert(
      fc.property(heddles, seen, (it, viewpoint) => {
        const list = direct(it.plan, viewpoint);
        const byHand = warpByHand(list, it.plan.loom.endsPerDent);
        const after = openingsAfter(list, list.steps.length);
        expect(
          after.flatMap(({ holds, kind }) => holds.map((yarn) => ({ yarn, in: kind }))),
        ).toEqual(byHand.ends);
        expect(after.every(({ now }) => !now)).toBe(true);
        expect(openingsAfter(list, 0).every(({ holds, now }) => holds.length === 0 && !now)).toBe(
          true,
        );
        list.steps.forEach((step, done) => {
          if (step.phase !== 'loops' && step.phase !== 'holes') return;
          const openings = openingsAfter(list, done);
          const now = openings.filter((one) => one.now).map(({ index }) => index);
          expect([Math.min(...now), Math.max(...now)]).toEqual([step.from, step.to - 1]);
          const empty = openings.findIndex(
            ({ kind, holds }) => kind === 'slot' && holds.length === 0,
          );
          if (step.phase === 'loops' && empty >= 0) expect(openings[empty]?.index).toBe(step.to);
        });
      }),
      { numRuns: 30 },
    );
  });

  it('threaded end by end, it holds as many ends as the step to do will bring', () => {
    fc.assert(
      fc.property(anyLoom, seen, ({ plan }, viewpoint) => {
        const list = warpingList(plan, { method: 'ends', viewpoint, warpLength: 2000 });
        list.steps.forEach((step, done) => {
          const ends = endsAfter(list, done);
          const laid = ends.filter((end) => end.laid).length;
          if (step.kind === 'thread') {
            expect(laid).toBe(step.to);
            expect(ends.filter((end) => end.now).length).toBe(step.to - step.from);
          }
          if (plan.loom.kind === 'shaft') return;
          const held = openingsAfter(list, done).reduce((sum, { holds }) => sum + holds.length, 0);
          expect(held).toBe(laid);
        });
      }),
      { numRuns: 30 },
    );
  });
});
