import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { type Course, layCourse } from '../../../src/core/bench/course.ts';
import { duesOf } from '../../../src/core/bench/dues.ts';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import { closes, readsSameBothWays } from '../../../src/core/measure/runs.ts';
import { type LaidBlock, turnOf } from '../../../src/core/plan/blocks.ts';
import { warpRuns } from '../../../src/core/plan/geometry.ts';
import type { Block, Plan } from '../../../src/core/plan/plan.ts';
import { checked, DEMOS, demo } from './samples.ts';

const layOf = (plan: Plan): Course => layCourse(plan, NO_ADJUSTMENTS);

function turnsOf(laid: LaidBlock) {
  return Array.from({ length: laid.turns }, (_, k) => turnOf(laid, k)).map((turn) => ({
    of: turn.yarn,
    count: turn.picks,
  }));
}

function stripesOf(course: Course, piece: number) {
  const facts = Array.from({ length: course.picks }, (_, n) => pickAt(course, n));
  return facts
    .filter((it) => it?.piece.index === piece && it.stripe.done === 0)
    .map((it) => ({ of: it?.yarn, count: it?.stripe.picks ?? 0 }));
}

function leaves(blocks: readonly Block[]): readonly Block[] {
  return blocks.flatMap((block) =>
    block.kind === 'repeat' || block.kind === 'mirror' ? leaves(block.of) : [block],
  );
}

const alternations = (course: Course) =>
  course.blocks.filter((it) => it.laid.role === 'alternation');

describe.each(DEMOS)('the demo %s', (name) => {
  const plan = checked(demo(name));
  const course = layOf(plan);

  it('has two pieces in a mirrored order, weft and warp', () => {
    expect(plan.pieces).toHaveLength(2);
    expect([0, 1].map((piece) => readsSameBothWays(stripesOf(course, piece)))).toEqual([
      true,
      true,
    ]);
    expect(readsSameBothWays(warpRuns(plan.warp.order))).toBe(true);
  });

  it('says it is invented', () => {
    expect(plan.notes).toContain('Invented');
  });
});

describe('moss and chalk', () => {
  const plan = checked(demo('moss-and-chalk'));
  const course = layOf(plan);

  it('is in inches, with three yarns', () => {
    expect([plan.units, plan.yarns.length]).toEqual(['inch', 3]);
    expect(new Set(course.turns.yarn)).toEqual(new Set([0, 1, 2]));
  });

  it('has hemstitched fringe at every end', () => {
    const edges = plan.pieces.flatMap((piece) => [piece.beginning, piece.ending]);
    expect(edges.every((edge) => edge.kind === 'hemstitch' && edge.fringe > 0)).toBe(true);
    expect(duesOf(course).filter((due) => due.kind === 'hemstitch')).toHaveLength(4);
    expect(duesOf(course).filter((due) => due.kind === 'endTail' && due.wrongSide)).toEqual([]);
  });

  it('has solids by length and alternations of two and two that close on the colour they open on', () => {
    const solids = leaves(plan.pieces.flatMap((piece) => piece.weft)).filter(
      (block) => block.kind === 'solid',
    );
    expect(solids.length).toBeGreaterThan(3);
    expect(solids.every((block) => block.extent.kind === 'length')).toBe(true);
    expect(alternations(course).length).toBeGreaterThan(2);
    for (const { laid } of alternations(course)) {
      expect(laid.period.picks).toEqual([2, 2]);
      expect(closes(turnsOf(laid))).toBe(true);
    }
  });
});

describe('ink, oat and ochre', () => {
  const plan = checked(demo('ink-oat-ochre'));
  const course = layOf(plan);

  it('is in centimetres', () => {
    expect(plan.units).toBe('metric');
  });

  it('has turned hems woven in a yarn of their own', () => {
    const edges = plan.pieces.flatMap((piece) => [piece.beginning, piece.ending]);
    expect(edges.every((edge) => edge.kind === 'hem' && edge.yarn === 'D')).toBe(true);
    const hems = course.blocks.filter((it) => it.laid.role === 'hem');
    expect(hems.map((it) => plan.yarns[it.laid.period.yarns[0] ?? -1]?.letter)).toEqual([
      'D',
      'D',
      'D',
      'D',
    ]);
    expect(
      leaves(plan.pieces.flatMap((it) => it.weft)).some(
        (it) => it.kind === 'solid' && it.yarn === 'D',
      ),
    ).toBe(false);
  });

  it('has an alternation of three colours in a mirrored cycle', () => {
    const three = alternations(course).filter((it) => new Set(it.laid.period.yarns).size === 3);
    expect(three).toHaveLength(4);
    for (const { laid } of three) {
      expect(laid.period.yarns).toHaveLength(4);
      expect([closes(turnsOf(laid)), readsSameBothWays(turnsOf(laid))]).toEqual([true, true]);
    }
  });

  it('has one of one and one whose edge end is not caught', () => {
    const ones = alternations(course).filter((it) => it.laid.period.picks.every((n) => n === 1));
    expect(ones).toHaveLength(4);
    const locked = duesOf(course).flatMap((due) => (due.kind === 'lockEdge' ? [due.id] : []));
    const isLocked = (it: (typeof ones)[number]) =>
      locked.includes(`${it.piece}/lock-edge/${it.ofPiece}`);
    expect(ones.every(isLocked)).toBe(true);
    expect(alternations(course).filter(isLocked)).toEqual(ones);
  });
});
