import { describe, expect, it } from 'vitest';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import { decodeMotif, type Motif, motifLength, planOfMotif } from '../../../src/core/plan/motif.ts';
import { alternation, solid } from './samples.ts';

const COUNT = { system: 'cottonCount', number: 8, plies: 4 } as const;

const MOTIF: Motif = {
  id: 'm1',
  name: 'Border',
  madeAt: '2026-03-04T05:06:07.000Z',
  yarns: [
    { letter: 'A', name: 'moss', colour: '#5d7043', count: COUNT, pickSpacing: 2.5 },
    { letter: 'B', name: 'chalk', colour: '#efe6d2', count: COUNT, pickSpacing: 2 },
  ],
  endsPerMm: 0.5,
  warp: [{ kind: 'solid', yarn: 'A', ends: 40 }],
  blocks: [solid('A', 8), alternation('B2 A2', { kind: 'turns', turns: 3 })],
};

describe('a motif', () => {
  it('is read back as it was kept', () => {
    expect(decodeMotif(JSON.parse(JSON.stringify(MOTIF)))).toEqual({ ok: true, value: MOTIF });
  });

  it('is as long as its picks at their own spacings', () => {
    // A 8 and 2 picks of 2.5 mm, B 4 picks of 2 mm.
    expect(motifLength(MOTIF)).toBeCloseTo(10 * 2.5 + 4 * 2, 9);
  });

  it('is a plan of one piece that weaves it once', () => {
    expect(checkPlan(planOfMotif(MOTIF)).ok).toBe(true);
  });

  const without = (field: string) =>
    Object.fromEntries(Object.entries(MOTIF).filter(([name]) => name !== field));
  it.each([
    ['no object', 7, { path: '', code: 'wrong-type', right: 'Object' }],
    ['no name', without('name'), { path: 'name', code: 'missing' }],
    ['an empty name', { ...MOTIF, name: ' ' }, { path: 'name', code: 'too-short' }],
    ['a day that is none', { ...MOTIF, madeAt: 'today' }, { path: 'madeAt' }],
    ['no blocks', { ...MOTIF, blocks: [] }, { path: 'blocks', code: 'too-short' }],
    [
      'a block of a yarn it has not got',
      { ...MOTIF, blocks: [solid('C', 4)] },
      { path: 'blocks[0].yarn', code: 'unknown-yarn', got: 'C', right: 'A, B' },
    ],
    [
      'a block that does not close',
      { ...MOTIF, blocks: [alternation('A2 B2', { kind: 'turns', turns: 4 }, { closes: 'A' })] },
      { path: 'blocks[0].extent.turns', code: 'does-not-close', right: '3, 5' },
    ],
    [
      'a part by eye',
      { ...MOTIF, blocks: [solid('A', 2), { kind: 'free' }] },
      { path: 'blocks[1].kind', code: 'not-one-of', got: 'free' },
    ],
    [
      'a warp in a yarn it has not got',
      { ...MOTIF, warp: [{ kind: 'solid', yarn: 'Z', ends: 4 }] },
      { path: 'warp[0].yarn', code: 'unknown-yarn' },
    ],
    [
      'a yarn without its beat',
      { ...MOTIF, yarns: [{ letter: 'A', name: 'moss', colour: '#5d7043', count: COUNT }] },
      { path: 'yarns[0].pickSpacing', code: 'missing' },
    ],
    ['a field nobody knows', { ...MOTIF, tune: 'waltz' }, { path: 'tune', code: 'unknown-field' }],
  ])('is refused for %s, which is named', (_, input, problem) => {
    const read = decodeMotif(input);
    expect(read.ok ? [] : read.problem).toEqual([expect.objectContaining(problem)]);
  });

  it('is refused with all that is wrong at once', () => {
    const read = decodeMotif({ ...MOTIF, name: '', blocks: [] });
    expect(read.ok ? [] : read.problem.map((it) => it.path)).toEqual(['name', 'blocks']);
  });
});
