import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recogniseBlocks } from '../../../../src/core/bench/byEye/recogniseBlocks.ts';
import {
  motifOfStretch,
  stretchLength,
  stripesIn,
} from '../../../../src/core/bench/byEye/stretch.ts';
import { weaveAgain, yarnsFor } from '../../../../src/core/bench/byEye/weaveAgain.ts';
import type { Course } from '../../../../src/core/bench/course.ts';
import type { Happening } from '../../../../src/core/bench/events.ts';
import { happened } from '../../../../src/core/bench/happened.ts';
import { pieceAt, yarnAt } from '../../../../src/core/bench/pickAt.ts';
import type { Progress } from '../../../../src/core/bench/progress.ts';
import { expandRuns } from '../../../../src/core/measure/runs.ts';
import { decodeMotif, motifLength } from '../../../../src/core/plan/motif.ts';
import type { Block } from '../../../../src/core/plan/plan.ts';
import { stripesOfMotif } from '../../../../src/core/planner/motif/changes.ts';
import { alternation, pieceOf, planOf, planWeaving, solid, yarns } from '../../plan/samples.ts';
import { having, thrown } from '../logs.ts';
import { anyFreeLog } from './freePlans.ts';

const FREE: Block = { kind: 'free' };
const of = (yarn: string, picks = 1): Happening => ({ kind: 'thrownOf', yarn, picks });
const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;
const HEAD = { id: 'm', name: 'Border', madeAt: '2026-03-04T05:06:07.000Z' };

/** Letters of the picks from one to before another, those that only stand for the next one left out. */
function letters(course: Course, from: number, to: number): string {
  const picks = Array.from({ length: Math.max(0, to - from) }, (_, n) => from + n);
  return picks
    .filter((n) => !course.open.includes(n))
    .map((n) => course.plan.yarns[yarnAt(course, n)]?.letter ?? '')
    .join('');
}

/** The progress with the blocks woven next. */
function again(before: Progress, blocks: readonly Block[]): Progress | null {
  const revision = weaveAgain(before.course, before.pick, blocks);
  return revision && happened(before, { kind: 'revised', ...revision });
}

describe('a stretch of the cloth kept as a motif', () => {
  const plan = planWeaving('ABC', [FREE]);
  const woven = having(plan, of('A', 8), of('B', 2), of('A', 2), of('B', 2), of('C', 5));

  it('has the stripes that lie in it, cut where it begins and ends', () => {
    expect(stripesIn(woven.course, { from: 5, to: 15 })).toEqual([
      { of: 'A', count: 3 },
      { of: 'B', count: 2 },
      { of: 'A', count: 2 },
      { of: 'B', count: 2 },
      { of: 'C', count: 1 },
    ]);
  });

  it('is told in blocks, with the yarns it has and those of its warp', () => {
    const motif = motifOfStretch(woven.course, { from: 0, to: 14 }, HEAD);
    expect(motif.blocks).toEqual([solid('A', 8), alternation('B2 A2', turns(3))]);
    expect(motif.yarns.map((it) => it.letter)).toEqual(['A', 'B']);
    expect(motif.endsPerMm).toBeCloseTo(12.5 / 25.4, 9);
    expect(decodeMotif(motif)).toEqual({ ok: true, value: motif });
  });

  it('is as long as it was measured to be', () => {
    const measured = having(plan, of('A', 40), {
      kind: 'measured',
      reading: 'r',
      loomLength: 120,
      from: { kind: 'start' },
      tension: 'tight',
    });
    const stretch = { from: 0, to: 40 };
    const motif = motifOfStretch(measured.course, stretch, HEAD);
    expect(motifLength(motif)).toBeCloseTo(stretchLength(measured.course, stretch), 6);
    expect(motifLength(motif)).toBeGreaterThan(110);
  });

  it('law: its picks are the picks of the stretch', () => {
    fc.assert(
      fc.property(anyFreeLog, fc.nat(), fc.nat(), ({ plan: any, log }, a, b) => {
        const { course, pick } = having(any, ...log);
        fc.pre(pick > 0);
        const piece = pieceAt(course, pick - 1);
        const size = pick - piece.firstPick;
        const from = piece.firstPick + (a % size);
        const to = from + 1 + (b % (pick - from));
        const motif = motifOfStretch(course, { from, to }, HEAD);
        expect(expandRuns(stripesOfMotif(motif)).join('')).toBe(letters(course, from, to));
        expect(motifLength(motif)).toBeCloseTo(stretchLength(course, { from, to }), 6);
      }),
      { numRuns: 200 },
    );
  }, 300_000);
});

describe('a motif woven again now', () => {
  const MOTIF = [solid('B', 4), solid('C', 2)];

  it('by eye: it comes next, then the part goes on by eye', () => {
    const before = having(planWeaving('ABC', [FREE]), of('A', 3));
    const after = again(before, MOTIF);
    expect(after?.pick).toBe(3);
    expect(after?.course.plan.pieces[0]?.weft).toEqual([solid('A', 3), ...MOTIF, FREE]);
  });

  it('in a planned block: what is left of it comes after', () => {
    const plan = planWeaving('ABC', [alternation('A2 B2', turns(5)), solid('C', 4)]);
    const after = again(having(plan, thrown(5)), MOTIF);
    expect(after?.course.plan.pieces[0]?.weft).toEqual([
      alternation('A2 B2', turns(2)),
      solid('A', 1),
      ...MOTIF,
      solid('A', 1),
      alternation('B2 A2', turns(2)),
      solid('C', 4),
    ]);
  });

  it('in the place of what was to come, which then is gone', () => {
    const plan = planWeaving('ABC', [alternation('A2 B2', turns(5)), solid('C', 4)], [FREE]);
    const before = having(plan, thrown(5));
    const revision = weaveAgain(before.course, before.pick, MOTIF, 'replaced');
    expect(revision?.pieces[0]?.weft).toEqual([
      alternation('A2 B2', turns(2)),
      solid('A', 1),
      ...MOTIF,
    ]);
    const eye = having(planWeaving('ABC', [FREE]), of('A', 3));
    expect(weaveAgain(eye.course, eye.pick, MOTIF, 'replaced')?.pieces[0]?.weft).toEqual([
      solid('A', 3),
      ...MOTIF,
    ]);
  });

  it('at the end of the last piece makes it longer', () => {
    const after = again(having(planWeaving('ABC', [solid('A', 4)]), thrown(4)), MOTIF);
    expect(after?.course.plan.pieces[0]?.weft).toEqual([solid('A', 4), ...MOTIF]);
  });

  it('not in a hem that is begun', () => {
    const hem = { kind: 'hem', washedAllowance: 25.4 } as const;
    const pieces = [pieceOf([solid('A', 4)], { beginning: hem, ending: hem })];
    const plan = planOf({ yarns: yarns('ABC'), pieces });
    expect(again(having(plan, thrown(3)), MOTIF)).toBeNull();
    expect(again(having(plan, thrown(16)), MOTIF)).toBeNull();
    expect(again(having(plan, thrown(12)), MOTIF)).not.toBeNull();
  });

  it('is not woven in yarns the warp has not got', () => {
    const before = having(planWeaving('AB', [FREE]), of('A', 3));
    expect(weaveAgain(before.course, before.pick, [solid('C', 2)])).toBeNull();
  });

  it('law: no woven pick changes, the motif comes next, and then what was to come', () => {
    const record = fc.array(
      fc.record({ of: fc.constantFrom('A', 'B'), count: fc.integer({ min: 1, max: 4 }) }),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(anyFreeLog, record, ({ plan, log }, runs) => {
        const before = having(plan, ...log);
        const { course, pick } = before;
        const after = again(before, recogniseBlocks(runs));
        if (after === null) return;
        const motif = expandRuns(runs).join('');
        expect(after.pick).toBe(pick);
        const piece = pieceAt(course, pick);
        const next = after.course.pieces[piece.index];
        expect(letters(after.course, 0, pick)).toBe(letters(course, 0, pick));
        expect(letters(after.course, pick, pick + motif.length)).toBe(motif);
        const end = (it: typeof piece | undefined) => (it?.firstPick ?? 0) + (it?.picks ?? 0);
        expect(letters(after.course, pick + motif.length, end(next))).toBe(
          letters(course, pick, end(piece)),
        );
        expect(after.course.open.length).toBe(course.open.length);
      }),
      { numRuns: 300 },
    );
  }, 300_000);
});

describe('the yarns of a motif on another warp', () => {
  it('are those of the shelf, else of the colour, else of the letter; else the weaver says', () => {
    const { course } = having(planWeaving('ABC', [FREE]), of('A'), of('B'), of('C'));
    const motif = motifOfStretch(course, { from: 0, to: 3 }, HEAD);
    const [a, b] = yarns('XY');
    const other = planOf({
      yarns: [
        { ...a, letter: 'D', shelf: 's1', colour: '#000000' },
        { ...b, letter: 'E', colour: '#EFE6D2' },
      ] as never,
      warp: {
        order: [{ kind: 'solid', yarn: 'D', ends: 4 }],
        firstEnd: 'slot',
        viewpoint: 'front',
      },
      pieces: [pieceOf([solid('D', 2)])],
    });
    const kept = {
      ...motif,
      yarns: motif.yarns.map((it, i) => (i === 0 ? { ...it, shelf: 's1' } : it)),
    };
    expect([...yarnsFor(kept, other)]).toEqual([
      ['A', 'D'],
      ['B', 'E'],
      ['C', null],
    ]);
  });
});
