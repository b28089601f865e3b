import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { rowOf } from '../../../../src/core/backup/file/eventShape.ts';
import type { Happening, HappeningKind } from '../../../../src/core/bench/events.ts';
import { pieceOf, solid } from '../../plan/samples.ts';

/** One of each kind with every field it can have: a new kind has to be put here to compile. */
const EACH: { readonly [K in HappeningKind]: Required<Extract<Happening, { kind: K }>> } = {
  thrown: { kind: 'thrown', picks: 1 },
  takenOut: { kind: 'takenOut', picks: 12 },
  woveLength: { kind: 'woveLength', loomLength: 76.2 },
  thrownOf: { kind: 'thrownOf', yarn: 'A', picks: 2 },
  woveLengthOf: { kind: 'woveLengthOf', yarn: 'B', loomLength: 40 },
  freeEnded: { kind: 'freeEnded' },
  undone: { kind: 'undone', event: 'e0' },
  redone: { kind: 'redone', event: 'e0' },
  otherShed: { kind: 'otherShed' },
  placed: { kind: 'placed', pick: 7, shed: 'up', sides: { A: 'left', B: 'right' } },
  dueDone: { kind: 'dueDone', due: '0/tail' },
  dueDeferred: { kind: 'dueDeferred', due: '0/gap' },
  advanced: { kind: 'advanced' },
  blockSet: { kind: 'blockSet', piece: 0, block: 3, picks: 24 },
  warped: {
    kind: 'warped',
    steps: -3,
    way: { method: 'ends', viewpoint: 'back', seenFrom: 'front' },
  },
  cutOff: { kind: 'cutOff' },
  pinned: { kind: 'pinned', pin: 'p1' },
  measured: {
    kind: 'measured',
    reading: 'r1',
    loomLength: 120.5,
    from: { kind: 'pin', pin: 'p1' },
    tension: 'eased',
  },
  readingStruck: { kind: 'readingStruck', reading: 'r1' },
  aimRefused: { kind: 'aimRefused', reading: 'r1' },
  blockKept: { kind: 'blockKept', piece: 1, block: 0, by: 'length' },
  mirrorKept: { kind: 'mirrorKept', piece: 1, by: 'picks' },
  revised: { kind: 'revised', from: 1, pieces: [pieceOf([solid('A', 4)])] },
  weighed: { kind: 'weighed', yarn: 'A', grams: 212, tare: 40 },
  bobbinChanged: { kind: 'bobbinChanged', yarn: 'B' },
  clothRead: {
    kind: 'clothRead',
    reading: 'r2',
    piece: 0,
    state: 'washed',
    lengths: [640, 644],
    widths: [380],
    fringe: 40,
    mass: 112,
  },
  warpRead: {
    kind: 'warpRead',
    reading: 'r3',
    tiedOn: 2400,
    frontWaste: 200,
    backWaste: 300,
    gaps: [120],
  },
  endRavelled: { kind: 'endRavelled', reading: 'r4', piece: 1, straightened: 95, inCloth: 90 },
  learntFrom: { kind: 'learntFrom', piece: 1, counts: 'out' },
  noted: { kind: 'noted', text: 'the edge pulls in', piece: 0 },
  photographed: { kind: 'photographed', photo: 'p1', text: 'at the window', piece: 0 },
};

/** Fields an event may go without. */
const OPTIONAL: { readonly [kind: string]: readonly string[] } = {
  warped: ['way'],
  clothRead: ['lengths', 'widths', 'fringe', 'mass'],
  warpRead: ['tiedOn', 'frontWaste', 'backWaste', 'gaps'],
  noted: ['piece'],
  photographed: ['text', 'piece'],
};

const HEAD = { id: 'e1', at: '2026-03-01T09:00:00.000Z' };

describe.each(Object.entries(EACH))('an event of the kind %s', (kind, happening) => {
  const shape = rowOf(kind);
  const reads = (input: unknown) => shape !== undefined && v.safeParse(shape, input);

  it('is read as it is', () => {
    expect(reads({ ...HEAD, ...happening })).toMatchObject({ output: { ...HEAD, ...happening } });
    expect(reads({ ...HEAD, after: null, ...happening })).toMatchObject({ success: true });
  });

  it('is refused with a field more', () => {
    expect(reads({ ...HEAD, ...happening, more: 1 })).toMatchObject({ success: false });
  });

  it('is refused with any of its fields missing or of another kind, each under its name', () => {
    const whole = { ...HEAD, ...happening };
    for (const field of Object.keys(whole)) {
      expect(firstFault(reads({ ...whole, [field]: Symbol(field) })), field).toBe(field);
      const { [field]: _, ...rest } = whole as { readonly [key: string]: unknown };
      const without = firstFault(reads(rest));
      if (!OPTIONAL[kind]?.includes(field)) expect(without, field).toBe(field);
    }
  });
});

function firstFault(read: unknown): unknown {
  return (read as v.SafeParseResult<v.GenericSchema>).issues?.[0]?.path?.[0]?.key;
}

it.each(['', 'flown', 'toString', '__proto__', 'constructor', null, 3, {}])(
  'there is no kind %j',
  (kind) => {
    expect(rowOf(kind)).toBeUndefined();
  },
);
