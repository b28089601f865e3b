import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { duesOf } from '../../../src/core/bench/dues.ts';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import { checkPlan, readPlanText } from '../../../src/core/plan/checkPlan.ts';
import { countEnds, countLaidBlocks, countPicks } from '../../../src/core/plan/count.ts';
import { reedWidth, warpEnds } from '../../../src/core/plan/geometry.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { PROBLEM_CODES } from '../../../src/core/plan/problems.ts';
import { anyPlan } from '../bench/arbitraries.ts';
import { BASE, DEMOS, demo, demoText } from './samples.ts';

type Holder = Record<string, unknown>;

/** Every place of a JSON value: the object or list it stands in, and its key there. */
function placesIn(value: unknown, found: [Holder, string][] = []): [Holder, string][] {
  if (typeof value !== 'object' || value === null) return found;
  const holder = value as Holder;
  for (const [key, inner] of Object.entries(holder)) {
    found.push([holder, key]);
    placesIn(inner, found);
  }
  return found;
}

type Edit = (holder: Holder, key: string, other: unknown) => void;

const EDITS: readonly Edit[] = [
  (holder, key) => {
    delete holder[key];
  },
  (holder, key) => {
    const value = holder[key];
    holder[key] = typeof value === 'number' ? String(value) : 7;
  },
  (holder, key) => {
    holder[key] = [holder[key]];
  },
  (holder, _, other) => {
    // As JSON.parse does it: a field of its own, even where it is called __proto__.
    const field = { value: other, configurable: true, enumerable: true, writable: true };
    if (!Array.isArray(holder)) Object.defineProperty(holder, String(other).slice(0, 20), field);
  },
  (holder, key, other) => {
    holder[key] = other;
  },
  (holder, key) => {
    const value = holder[key];
    if (typeof value === 'number') holder[key] = value * 1e6;
  },
  (holder, key) => {
    const value = holder[key];
    if (typeof value === 'number') holder[key] = -value;
  },
  (holder, key) => {
    const value = holder[key];
    if (typeof value === 'number') holder[key] = value + 0.5;
  },
  (holder, key) => {
    const value = holder[key];
    if (typeof value === 'number') holder[key] = value + 1;
  },
  (holder, key) => {
    const value = holder[key];
    if (Array.isArray(value)) holder[key] = [...value, ...structuredClone(value)];
  },
];

const odd = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    '',
    'A',
    'Z',
    'odd',
    'repeat',
    0,
    -1,
    0.5,
    1e9,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    [],
    {},
    '__proto__',
    'constructor',
    'toString',
  ),
  fc.string(),
  fc.jsonValue({ maxDepth: 2 }),
);

const edits = fc.array(fc.tuple(fc.nat(), fc.nat(EDITS.length - 1), fc.nat(), odd, fc.boolean()), {
  minLength: 1,
  maxLength: 4,
});

/** A demo plan after some slips of the hand: fields gone, swapped, doubled, made huge. */
const mangled = fc
  .record({ name: fc.constantFrom(...DEMOS), edits })
  .map(({ name, edits: list }) => {
    const plan = demo(name);
    for (const [where, which, otherWhere, value, fromPlan] of list) {
      const places = placesIn(plan);
      const [holder, key] = places[where % places.length] ?? [{}, ''];
      const [otherHolder, otherKey] = places[otherWhere % places.length] ?? [{}, ''];
      // A copy: what is put in may be edited in its turn, and must never lead back to itself.
      EDITS[which]?.(holder, key, structuredClone(fromPlan ? otherHolder[otherKey] : value));
    }
    return plan;
  });

function numbersOf(course: Course): readonly number[] {
  const { turns, stripes, pieces, blocks } = course;
  return [
    ...turns.loomStart,
    ...turns.spacing,
    ...turns.firstPick,
    ...stripes.firstPick.slice(0, stripes.count + 1),
    ...pieces.flatMap((it) => [
      it.firstPick,
      it.picks,
      it.startShed,
      it.loomLength,
      it.loomStart,
      it.gapAfter,
    ]),
    ...blocks.flatMap((it) => [it.firstPick, it.picks, it.turns, it.loomStart, it.loomLength]),
  ];
}

function expectToLie(plan: Plan): void {
  const course = layCourse(plan, NO_ADJUSTMENTS);
  expect(numbersOf(course).every((n) => Number.isFinite(n) && n >= 0)).toBe(true);
  expect(course.picks).toBeGreaterThan(0);
  expect(Number.isFinite(reedWidth(plan))).toBe(true);
  for (const due of duesOf(course)) expect(due.at).toBeLessThanOrEqual(course.picks);
  expect(pickAt(course, course.picks - 1)).not.toBeNull();
}

describe('any plan, however mangled', () => {
  it('is accepted and can be laid out, or is refused for named problems', () => {
    let accepted = 0;
    fc.assert(
      fc.property(mangled, (input) => {
        const result = checkPlan(input);
        if (result.ok) {
          accepted++;
          return expectToLie(result.value);
        }
        expect(result.problem.length).toBeGreaterThan(0);
        for (const { code, path } of result.problem) {
          expect(PROBLEM_CODES).toContain(code);
          expect(typeof path).toBe('string');
        }
      }),
      { numRuns: 600 },
    );
    // A check that refuses everything would pass the rest.
    expect(accepted).toBeGreaterThan(10);
  });

  it('or any text at all never throws', () => {
    const slips = fc.tuple(fc.constantFrom(...DEMOS), fc.nat(), fc.nat(40), fc.string());
    fc.assert(
      fc.property(slips, ([name, at, length, instead]) => {
        const text = demoText(name);
        const from = at % text.length;
        const result = readPlanText(`${text.slice(0, from)}${instead}${text.slice(from + length)}`);
        if (result.ok) expectToLie(result.value);
        else expect(result.problem.length).toBeGreaterThan(0);
      }),
    );
  });

  it('or any value at all never throws', () => {
    fc.assert(
      fc.property(fc.anything({ withNullPrototype: true }), (value) => {
        expect(checkPlan(value).ok).toBe(false);
        expect(checkPlan({ ...BASE, pieces: value }).ok).toBe(false);
      }),
    );
  });
});

describe('an accepted plan', () => {
  it('has no more picks and blocks than were counted before it was laid out', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const course = layCourse(plan, NO_ADJUSTMENTS);
        for (const piece of course.pieces) {
          const planned = plan.pieces[piece.index];
          if (planned === undefined) throw new Error('no such piece');
          expect(piece.picks).toBeLessThanOrEqual(countPicks(plan, planned));
          expect(piece.blocks).toBeLessThanOrEqual(countLaidBlocks(planned.weft) + 2);
        }
      }),
    );
  });

  it('has blocks whose picks and lengths make up the piece', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const course = layCourse(plan, NO_ADJUSTMENTS);
        for (const piece of course.pieces) {
          const blocks = course.blocks.filter((it) => it.piece === piece.index);
          expect(blocks.reduce((sum, it) => sum + it.picks, 0)).toBe(piece.picks);
          expect(blocks.reduce((sum, it) => sum + it.loomLength, 0)).toBeCloseTo(
            piece.loomLength,
            6,
          );
        }
        expect(course.pieces.reduce((sum, it) => sum + it.picks, 0)).toBe(course.picks);
      }),
    );
  });

  it('is the same plan when it is read again', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        expect(readPlanText(JSON.stringify(plan))).toEqual({ ok: true, value: plan });
      }),
    );
  });

  it('has no more ends than were counted', () => {
    for (const name of DEMOS) {
      const result = checkPlan(demo(name));
      if (!result.ok) throw new Error(`${name} is no plan`);
      expect(warpEnds(result.value)).toBeLessThanOrEqual(countEnds(result.value.warp.order));
    }
  });
});
