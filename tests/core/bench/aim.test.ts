import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { aimedAnew } from '../../../src/core/bench/aim.ts';
import type { Keeping } from '../../../src/core/bench/aims.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import type { Belief } from '../../../src/core/bench/gauge.ts';
import { loomLengthAt, yarnAt } from '../../../src/core/bench/pickAt.ts';
import { mayHaveAnyParity } from '../../../src/core/plan/parity.ts';
import type { Block, Plan } from '../../../src/core/plan/plan.ts';
import {
  alternation,
  checked,
  pieceOf,
  planOf,
  solid,
  solidOfLength,
  yarns,
} from '../plan/samples.ts';
import { anyPlan } from './arbitraries.ts';

const NO_CHOICE: Keeping = { blocks: new Map(), mirrors: new Map() };

/** Two millimetres a pick in the plan, and so many times that at the loom. */
const beating = (factor: number): Belief => ({
  yarns: [factor, factor, factor, factor, factor, factor],
  pieces: new Map(),
  slope: 1,
});

const weaving = (...weft: readonly Block[]): Plan => {
  const base = planOf({ yarns: yarns('AB'), pieces: [pieceOf(weft)] });
  return checked({ ...base, weaving: { ...base.weaving, pickSpacing: 2 } });
};

const aimedPicks = (plan: Plan, factor: number, pick = 0, keeping = NO_CHOICE) => {
  const course = layCourse(plan, NO_ADJUSTMENTS, beating(factor));
  return picksIn(aimed(course, pick, keeping));
};

const aimed = (course: Course, pick: number, keeping = NO_CHOICE): Course =>
  layCourse(
    course.plan,
    {
      ...course.adjustments,
      blocks: [...course.adjustments.blocks, ...aimedAnew(course, pick, keeping)],
    },
    course.belief,
  );

const picksIn = (course: Course) => course.blocks.map((block) => block.picks);

describe('blocks that keep their length', () => {
  it.each([
    // 100 mm at 2.2 mm a pick are 45.45 picks: 46 are nearest among the even ones.
    ['one solid', [solidOfLength('A', 100)], 1.1, [46]],
    // 101.2 mm are woven then, so the next block aims at 98.8: 44 picks (96.8) before 46 (101.2).
    [
      'what one overshoots the next makes good',
      [solidOfLength('A', 100), solidOfLength('B', 100)],
      1.1,
      [46, 44],
    ],
    [
      'the plan\u2019s own beat changes nothing',
      [solidOfLength('A', 100), solidOfLength('B', 60)],
      1,
      [50, 30],
    ],
    ['picks stay picks', [solid('A', 50), solidOfLength('B', 100)], 1.25, [50, 40]],
    // Turns of 2 and 2, closing on A: 13, 11 … turns; 52 mm planned are 26 picks, 20.8 at 2.5 mm.
    [
      'whole turns that still close',
      [alternation('A2 B2', { kind: 'length', loomLength: 52 }, { closes: 'A' })],
      1.25,
      [22],
    ],
    // Three picks of each: a round more would turn every shuttle to its other side, so two rounds are a step.
    [
      'the parity of each yarn',
      [alternation('A3 B3', { kind: 'length', loomLength: 120 })],
      1.3,
      [48],
    ],
  ] as const)('%s', (_, weft, factor, picks) => {
    expect(aimedPicks(weaving(...weft), factor)).toEqual(picks);
  });

  it('keep an odd number odd where it was asked for', () => {
    const odd: Block = {
      kind: 'solid',
      yarn: 'A',
      extent: { kind: 'length', loomLength: 100, parity: 'odd' },
    };
    expect(aimedPicks(weaving(odd), 1)).toEqual([49]);
    // 45.45 picks at this beat: 45 is the nearest odd one.
    expect(aimedPicks(weaving(odd), 1.1)).toEqual([45]);
  });

  it('are chosen by hand, block by block', () => {
    const plan = weaving(solid('A', 50), solidOfLength('B', 100));
    const keeping = {
      ...NO_CHOICE,
      blocks: new Map([
        ['0/0', 'length'],
        ['0/1', 'picks'],
      ] as const),
    };
    expect(aimedPicks(plan, 1.25, 0, keeping)).toEqual([40, 50]);
  });

  it('make good in the blocks to come what the woven ones missed', () => {
    // 50 picks of A are in the cloth, 125 mm instead of 100: B is left with 75 mm, 30 picks.
    expect(aimedPicks(weaving(solidOfLength('A', 100), solidOfLength('B', 100)), 1.25, 50)).toEqual(
      [50, 30],
    );
  });

  it('leave a hem near its own length, by a fifth at most', () => {
    const base = weaving(solidOfLength('A', 100), solidOfLength('B', 100));
    const hem = { kind: 'hem', washedAllowance: 30 } as const;
    const plan = checked({
      ...base,
      pieces: [pieceOf(base.pieces[0]?.weft ?? [], { beginning: hem, ending: hem })],
    });
    // Hem and A are woven half as long again. B gives way by half, to 16 picks (48 mm of 50), and the
    // closing hem by a fifth of its 30 mm: with the 2 mm that B left over 26 mm, 9 picks of 3 mm.
    const picks = aimedPicks(plan, 1.5, 14 + 50);
    expect(picks[0]).toBe(14);
    expect(picks[3]).toBe(9);
  });
});

describe('the second half of a mirror', () => {
  const mirrored: Block = {
    kind: 'mirror',
    centre: 'shared',
    of: [solidOfLength('A', 100), solidOfLength('B', 60)],
  };
  it('matches the length its first half really became, at the beat of now', () => {
    // A was woven when the beat was 2 mm: 100 mm. At 2.5 mm a pick that is 40 picks.
    const belief: Belief = {
      yarns: [1.25, 1.25],
      pieces: new Map([[0, { reckoned: [0, 125], loom: [0, 100], slope: 1 }]]),
      slope: 1,
    };
    const course = layCourse(weaving(mirrored), NO_ADJUSTMENTS, belief);
    expect(loomLengthAt(course, 50)).toBe(100);
    const picks = picksIn(aimed(course, 50));
    expect([picks[0], picks[2]]).toEqual([50, 40]);
  });
  it('or its picks, where the weaver wants that', () => {
    const belief: Belief = {
      yarns: [1.25, 1.25],
      pieces: new Map([[0, { reckoned: [0, 125], loom: [0, 100], slope: 1 }]]),
      slope: 1,
    };
    const course = layCourse(weaving(mirrored), NO_ADJUSTMENTS, belief);
    const keeping: Keeping = { ...NO_CHOICE, mirrors: new Map([[0, 'picks']]) };
    const picks = picksIn(aimed(course, 50, keeping));
    expect([picks[0], picks[2]]).toEqual([50, 50]);
  });
  it('goes as its first half as long as that is still to be woven', () => {
    const picks = aimedPicks(weaving(mirrored), 1.1);
    expect(picks[0]).toBe(picks[2]);
  });
});

describe('any plan aimed at any beat', () => {
  const at = anyPlan.chain((plan) => {
    const { picks } = layCourse(plan, NO_ADJUSTMENTS);
    return fc.record({
      plan: fc.constant(plan),
      factor: fc.double({ min: 0.7, max: 1.4, noNaN: true }),
      pick: fc.integer({ min: 0, max: picks }),
    });
  });

  it('keeps every woven pick', () => {
    fc.assert(
      fc.property(at, ({ plan, factor, pick }) => {
        const course = layCourse(plan, NO_ADJUSTMENTS, beating(factor));
        const again = aimed(course, pick);
        for (let n = 0; n < pick; n++) expect(yarnAt(again, n)).toBe(yarnAt(course, n));
      }),
    );
  });

  it('keeps the closing yarn of every block and the parity of its picks', () => {
    fc.assert(
      fc.property(at, ({ plan, factor, pick }) => {
        const course = layCourse(plan, NO_ADJUSTMENTS, beating(factor));
        const again = aimed(course, pick);
        for (const [i, block] of course.blocks.entries()) {
          const now = again.blocks[i];
          if (now === undefined || now.picks === block.picks) continue;
          const { laid } = block;
          const free = laid.source.endsWith('.ending') || mayHaveAnyParity(laid.block);
          if (!free) expect(Math.abs(now.picks - block.picks) % 2).toBe(0);
          expect(yarnAt(again, now.firstPick + now.picks - 1)).toBe(
            yarnAt(course, block.firstPick + block.picks - 1),
          );
        }
      }),
    );
  });

  it('is done once: aiming again at the same beat changes nothing', () => {
    fc.assert(
      fc.property(at, ({ plan, factor, pick }) => {
        const once = aimed(layCourse(plan, NO_ADJUSTMENTS, beating(factor)), pick);
        expect(aimedAnew(once, pick, NO_CHOICE)).toEqual([]);
      }),
    );
  });
});
