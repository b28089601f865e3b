import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  copyOf,
  noneSeen,
  samenessOf,
  see,
  seenRuns,
  unsee,
} from '../../../../src/core/bench/endings/seen.ts';
import { planOf, yarns } from '../../plan/samples.ts';
import { sameByHand } from './byHand.ts';

/** Turns such as `A2 B3`, each pick 2 mm; yarns D and E have the colour of A. */
const turns = (order: string, mmPerPick = 2) =>
  order.split(' ').map((turn) => {
    const of = 'ABCDE'.indexOf(turn.slice(0, 1));
    const picks = Number(turn.slice(1));
    return { of, picks, mm: picks * mmPerPick };
  });
const COLOURS = [0, 1, 2, 0, 0];

const sameness = (list: readonly { of: number; picks: number; mm: number }[]) =>
  samenessOf(seenRuns(list), seenRuns(list.map((it) => ({ ...it, of: COLOURS[it.of] ?? 0 }))));

describe('whether a piece reads the same from both ends', () => {
  it('exactly, when yarns and picks mirror once equal neighbours are merged', () => {
    expect(sameness(turns('A2 B4 A2'))).toBe('exact');
    expect(sameness(turns('A1 A1 B4 A2'))).toBe('exact');
    expect(sameness(turns('A2 B4 C1 B4 A2'))).toBe('exact');
    expect(sameness(turns('A2 B4'))).toBe('no');
    expect(sameness(turns('A2 B4 A3'))).toBe('no');
    expect(sameness(turns('A2 B4 C4 A2'))).toBe('no');
  });

  it('to the eye, when other picks come to the same length, within a twentieth or a millimetre', () => {
    const beaten = (order: string, first: number) =>
      turns(order).map((turn, i) => (i === 0 ? { ...turn, mm: first } : turn));
    // 40 picks at 2 mm are 80; 38 picks were woven to so much.
    expect(sameness(beaten('A38 B4 A40', 80))).toBe('toTheEye');
    expect(sameness(beaten('A38 B4 A40', 76))).toBe('toTheEye');
    expect(sameness(beaten('A38 B4 A40', 75.9))).toBe('no');
    // Narrow stripes: 4 mm against 3 and against 2.9.
    expect(sameness(beaten('A3 B4 A2', 3))).toBe('toTheEye');
    expect(sameness(beaten('A3 B4 A2', 2.9))).toBe('no');
  });

  it('to the eye, when two yarns of one colour stand for each other', () => {
    expect(sameness(turns('A4 B4 D4'))).toBe('toTheEye');
    expect(sameness(turns('A4 D4 B4 A4 E4'))).toBe('toTheEye');
    expect(sameness(turns('A4 B4 C4'))).toBe('no');
  });

  it('law: as pick against pick and stripe against stripe have it', () => {
    const plan = planOf({
      yarns: yarns('ABCDE').map((yarn, i) => ({
        ...yarn,
        colour: i > 2 ? (yarns('A')[0]?.colour.toUpperCase() ?? '') : yarn.colour,
      })),
    });
    const turn = fc.record({
      of: fc.nat(4),
      picks: fc.integer({ min: 1, max: 3 }),
      perPick: fc.constantFrom(2, 2.5),
    });
    const half = fc.array(turn, { maxLength: 5 });
    const mirroredOrNot = fc
      .tuple(half, fc.boolean(), half)
      .map(([there, back, more]) => [...there, ...(back ? there.toReversed() : more)]);
    fc.assert(
      fc.property(mirroredOrNot, (list) => {
        const picks = list.flatMap(({ of, picks: n, perPick }) =>
          Array.from({ length: n }, () => ({ yarn: of, mm: perPick })),
        );
        fc.pre(picks.length > 0);
        const seen = list.map(({ of, picks: n, perPick }) => ({ of, picks: n, mm: n * perPick }));
        expect(sameness(seen)).toBe(sameByHand(plan, picks));
      }),
    );
  });

  it('law: seeing one turn more and taking it back changes nothing', () => {
    const turn = fc.record({ of: fc.nat(2), picks: fc.nat(3), mm: fc.integer({ min: 0, max: 9 }) });
    fc.assert(
      fc.property(fc.array(turn), turn, (list, more) => {
        const seen = seenRuns(list);
        const before = copyOf(seen);
        see(seen, more.of, more.picks, more.mm);
        unsee(seen, more.picks, more.mm);
        expect(seen).toEqual(before);
      }),
    );
    expect(noneSeen()).toEqual({ of: [], picks: [], mm: [] });
  });
});
