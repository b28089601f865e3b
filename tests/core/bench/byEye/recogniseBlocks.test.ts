import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recogniseBlocks } from '../../../../src/core/bench/byEye/recogniseBlocks.ts';
import { mergeRuns, type Runs } from '../../../../src/core/measure/runs.ts';
import { formatBlocks } from '../../../../src/core/plan/orderText.ts';
import type { Letter } from '../../../../src/core/plan/plan.ts';
import { checked, DEMOS, demo, planWeaving } from '../../plan/samples.ts';
import { anyPlan } from '../arbitraries.ts';
import { fewestBlocks, recordOf, writtenBlocks } from './written.ts';

/** A record as it is written here: `A20 B2`. */
function record(text: string): Runs<Letter> {
  return text.split(' ').map((run) => ({ of: run.slice(0, 1), count: Number(run.slice(1)) }));
}

const inOneLine = (text: string) => formatBlocks(recogniseBlocks(record(text)), 'metric');

/** The recognised blocks as a plan of one piece: so they pass `checkPlan` too. */
const recognised = (runs: Runs<Letter>) => planWeaving('ABCDE', recogniseBlocks(runs));

function anyRecord(letters: string, runs: number, picks: number): fc.Arbitrary<Runs<Letter>> {
  const run = fc.record({
    of: fc.constantFrom(...letters),
    count: fc.integer({ min: 1, max: picks }),
  });
  return fc.array(run, { minLength: 1, maxLength: runs });
}

describe('blocks recognised in a record', () => {
  it.each([
    ['a solid', 'A6', '6 picks A'],
    ['runs of one yarn are one solid', 'A6 A4', '10 picks A'],
    ['an alternation that closes', 'A2 B2 A2', '3 turns of (2 A, 2 B)'],
    ['… and one that does not', 'A2 B2 A2 B2', '4 turns of (2 A, 2 B)'],
    ['two turns do not alternate yet', 'A2 B2', '2 picks A, 2 picks B'],
    ['three yarns in turn', 'A1 B2 C4 A1 B2', '5 turns of (1 A, 2 B, 4 C)'],
    ['three yarns, the first back again', 'A1 B2 C4 A1', '4 turns of (1 A, 2 B, 4 C)'],
    ['there and back', 'A1 B2 C4 B2 A1', '5 turns of (1 A, 2 B, 4 C) there and back'],
    [
      'there and back from the middle',
      'B2 C4 B2 A1 B2 C4',
      '6 turns of (1 A, 2 B, 4 C) there and back from B',
    ],
    [
      'beside a solid of A the alternation opens on B',
      'A20 B2 A2 B2 A2 B2 A20',
      '20 picks A, 5 turns of (2 B, 2 A), 20 picks A',
    ],
    [
      'a stripe two alternations share',
      'A2 B3 A6 C1 A4 C1 A4',
      '3 turns of (2 A, 3 B), 5 turns of (4 A, 1 C)',
    ],
    [
      'a cycle that names a yarn twice, gone round twice',
      'A2 B1 A2 C1 B1 A2 B1 A2 C1 B1',
      '10 turns of (2 A, 1 B, 2 A, 1 C, 1 B)',
    ],
    [
      '… unless its numbers differ, for then it is a group',
      'A1 B1 C1 A3 C2 A1 B1 C1 A3 C2 A1 B1 C1 A3 C2',
      '3 times (4 turns of (1 A, 1 B, 1 C), 2 picks A, 2 picks C)',
    ],
    [
      'a group repeated, with what it holds',
      'A20 B2 A2 B2 C9 A20 B2 A2 B2 C9 A20 B2 A2 B2 C9',
      '3 times (20 picks A, 3 turns of (2 B, 2 A), 9 picks C)',
    ],
    ['a group whose ends melt together', 'A3 B1 A6 B1 A6 B1 A3', '3 times (3 turns of (3 A, 1 B))'],
    [
      'a mirror with its centre shared',
      'A9 B2 A2 B2 C7 A5 C7 B2 A2 B2 A9',
      'mirror (9 picks A, 3 turns of (2 B, 2 A), 7 picks C, 5 picks A)',
    ],
    [
      'a mirror with its centre doubled, where that is shorter',
      'C9 A2 B3 A2 B3 A4 B3 A2 B3 A2 C9',
      'mirror with the middle twice (9 picks C, 5 turns of (2 A, 3 B))',
    ],
    [
      'a mirror in a repeat',
      'A9 B2 A2 B2 C7 A5 C7 B2 A2 B2 A9 D6 A9 B2 A2 B2 C7 A5 C7 B2 A2 B2 A9 D6',
      '2 times (mirror (9 picks A, 3 turns of (2 B, 2 A), 7 picks C, 5 picks A), 6 picks D)',
    ],
  ])('%s: %s', (_, text, blocks) => {
    expect(inOneLine(text)).toBe(blocks);
  });

  it('of an empty record there are none', () => {
    expect(recogniseBlocks([])).toEqual([]);
    expect(recogniseBlocks([{ of: 'A', count: 0 }])).toEqual([]);
  });

  it.each(DEMOS)('the weft of %s is found again in no more blocks', (name) => {
    const plan = checked(demo(name));
    for (const [piece] of plan.pieces.entries()) {
      const again = recognised(recordOf(plan, piece));
      expect(recordOf(again, 0)).toEqual(recordOf(plan, piece));
      expect(writtenBlocks(again, 0)).toBeLessThanOrEqual(writtenBlocks(plan, piece));
    }
  });
});

describe('laws of recognition', () => {
  const numRuns = 1000;
  /** A machine with other work to do needs minutes for a thousand plans. */
  const PATIENCE = 300_000;

  it(
    'the blocks lay exactly the picks of the record, and are never more than its runs',
    () => {
      const anyOne = fc.oneof(
        anyRecord('AB', 60, 2),
        anyRecord('ABC', 40, 4),
        anyRecord('ABCDE', 60, 1),
      );
      fc.assert(
        fc.property(anyOne, (runs) => {
          const plan = recognised(runs);
          expect(recordOf(plan, 0)).toEqual(mergeRuns(runs));
          expect(writtenBlocks(plan, 0)).toBeLessThanOrEqual(mergeRuns(runs).length);
        }),
        { numRuns },
      );
    },
    PATIENCE,
  );

  it(
    'the picks of a plan come back in no more blocks than the plan was written in',
    () => {
      fc.assert(
        fc.property(anyPlan, (plan) => {
          for (const [piece] of plan.pieces.entries()) {
            const again = recognised(recordOf(plan, piece));
            expect(recordOf(again, 0)).toEqual(recordOf(plan, piece));
            expect(writtenBlocks(again, 0)).toBeLessThanOrEqual(writtenBlocks(plan, piece));
          }
        }),
        { numRuns },
      );
    },
    PATIENCE,
  );

  it(
    'no way of writing a short record takes fewer blocks: all of them were tried',
    () => {
      const anyShort = fc.oneof(anyRecord('ABC', 12, 3), anyRecord('AB', 14, 3));
      fc.assert(
        fc.property(anyShort, (runs) => {
          const picks = runs.map((run) => run.of.repeat(run.count)).join('');
          expect(writtenBlocks(recognised(runs), 0)).toBe(fewestBlocks(picks));
        }),
        { numRuns },
      );
    },
    PATIENCE,
  );

  it(
    'a stretch woven over and over takes one block more than the stretch',
    () => {
      fc.assert(
        fc.property(anyRecord('ABC', 8, 4), fc.integer({ min: 2, max: 40 }), (runs, times) => {
          const many = Array.from({ length: times }, () => runs).flat();
          const plan = recognised(many);
          expect(recordOf(plan, 0)).toEqual(mergeRuns(many));
          expect(writtenBlocks(plan, 0)).toBeLessThanOrEqual(
            writtenBlocks(recognised(runs), 0) + 1,
          );
        }),
        { numRuns },
      );
    },
    PATIENCE,
  );
});
