import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beatShown, spacingOf } from '../../../src/core/measure/beat.ts';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import { closingOn, extentAs, stepsOf, withCycle } from '../../../src/core/planner/blockEdits.ts';
import { blockSize, nearestClosing } from '../../../src/core/planner/orderBands.ts';
import { alternationBlock } from '../bench/arbitraries.ts';
import { alternation, BASE, pieceOf, solid, solidOfLength, yarns } from '../plan/samples.ts';

/** Ten picks to the inch. */
const BEAT = { yarns: yarns('ABC'), pickSpacing: 2.54 };
const cycle = (...letters: readonly string[]) => letters.map((yarn) => ({ yarn, picks: 2 }));
const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;

describe('edits of a block keep its parts in step', () => {
  it('a yarn that is replaced in the cycle is replaced where it opens and closes', () => {
    const block = alternation('A2 B2', turns(9), { opens: 'B', closes: 'B' });
    expect(withCycle(block, cycle('A', 'C'))).toMatchObject({ opens: 'C', closes: 'C' });
    expect(withCycle(block, cycle('B', 'A'))).toMatchObject({ opens: 'B', closes: 'B' });
  });

  it('a yarn taken out gives way to the one in its place, else to the first', () => {
    const block = alternation('A2 B2 C2', turns(9), { opens: 'C', path: 'there-and-back' });
    expect(withCycle(block, cycle('A', 'B'))).toMatchObject({ opens: 'A', path: 'round' });
    expect(withCycle(block, cycle('A', 'C'))).toMatchObject({ opens: 'C', path: 'round' });
  });

  it('what need not close names no closing yarn', () => {
    const block = alternation('A2 B2', turns(9), { closes: 'A' });
    expect(closingOn(block, null)).not.toHaveProperty('closes');
    expect(closingOn(block, 'B').closes).toBe('B');
  });

  it.each([
    ['A2 B2', { closes: 'A' }, { turns: 2, picks: 4 }],
    ['A2 B2', {}, { turns: 1, picks: 2 }],
    ['A2 B3', {}, { turns: 1, picks: 5 }],
    ['A2 B3 C1', { closes: 'A', path: 'there-and-back' }, { turns: 4, picks: 9 }],
  ] as const)('%s %j goes in steps of %j', (text, changes, steps) => {
    expect(stepsOf(alternation(text, turns(1), changes))).toEqual(steps);
  });

  it.each([
    ['picks', solidOfLength('A', 63.5), { kind: 'picks', picks: 24 }],
    ['length', solid('A', 24), { kind: 'length', loomLength: 63.5 }],
    ['turns', alternation('A2 B2', { kind: 'picks', picks: 30 }), turns(15)],
    ['turns', alternation('A2 B2', turns(7)), turns(7)],
    ['picks', solid('A', Number.NaN), { kind: 'picks', picks: Number.NaN }],
    ['length', solid('A', Number.NaN), { kind: 'length', loomLength: 6.35 }],
  ] as const)('said as %s %j is %j', (kind, block, extent) => {
    expect(extentAs(kind, block, BEAT, 6.35)).toEqual(extent);
  });

  it('a beat is shown per inch or per centimetre, and reads back', () => {
    expect(beatShown(2.54, 'inch')).toBe(10);
    expect(beatShown(2.54, 'metric')).toBe(3.94);
    expect(spacingOf(10, 'inch')).toBeCloseTo(2.54, 9);
    expect(spacingOf(4, 'metric')).toBe(2.5);
  });
});

describe('laws of blocks', () => {
  it('steps and nearest closings of a block that fits fit again', () => {
    const letters = ['A', 'B', 'C'];
    const fits = (block: ReturnType<typeof alternation>) =>
      checkPlan({ ...BASE, yarns: BEAT.yarns, pieces: [pieceOf([block])] }).ok;
    fc.assert(
      fc.property(alternationBlock(letters), (block) => {
        if (block.extent.kind === 'length') return;
        const size = blockSize(block, BEAT);
        expect(nearestClosing(block, BEAT)).toEqual(size);
        const steps = stepsOf(block);
        const more = size === null ? 0 : size.turns + steps.turns;
        expect(fits({ ...block, extent: { kind: 'turns', turns: more } })).toBe(true);
        const picks = (size?.picks ?? 0) + steps.picks;
        expect(fits({ ...block, extent: { kind: 'picks', picks } })).toBe(true);
      }),
    );
  });
});
