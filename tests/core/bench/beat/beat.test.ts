import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Beat,
  measured,
  PLANNED,
  pinned,
  startBeat,
  takenBackTo,
  woveByLength,
} from '../../../../src/core/bench/beat/beat.ts';
import { doubtOf } from '../../../../src/core/bench/beat/doubt.ts';
import { jumpAt } from '../../../../src/core/bench/beat/jump.ts';
import { factorOf, lengthAt } from '../../../../src/core/bench/beat/lengths.ts';
import type { Place, Reading, Ruler } from '../../../../src/core/bench/beat/marks.ts';
import type { Believed } from '../../../../src/core/bench/beat/quantiles.ts';
import type { ReadFrom } from '../../../../src/core/bench/events.ts';

/** 2 mm a pick in yarn A; every piece alike, its picks counted from 0. */
const evenly: Ruler = (from, to) => [2 * (to - from), 0];
/** 40 picks of A at 2 mm and 40 of B at 1 mm, taking turns. */
const takingTurns: Ruler = (from, to) => {
  let [a, b] = [0, 0];
  for (let pick = from; pick < to; pick++) {
    if (pick % 80 < 40) a += 2;
    else b += 1;
  }
  return [a, b];
};

const NEW = startBeat(2, PLANNED);
const START: ReadFrom = { kind: 'start' };
const at = (pick: number, piece = 0): Place => ({ piece, firstPick: 0, pick });
const reading = (
  mm: number,
  from: ReadFrom = START,
  tension: Reading['tension'] = 'tight',
): Reading => ({
  reading: `${mm}`,
  mm,
  from,
  tension,
});
const read = (beat: Beat, pick: number, mm: number, piece = 0): Beat =>
  measured(beat, evenly, at(pick, piece), reading(mm));
const length = (beat: Beat, pick: number, piece = 0): Believed =>
  lengthAt(beat, evenly, at(pick, piece));
const width = ({ low, high }: Believed) => high - low;

/** Read at every 40 picks, woven this much looser than planned, to the millimetre. */
function readEvery40(factor: number, picks: number, beat = NEW): Beat {
  let now = beat;
  for (let pick = 40; pick <= picks; pick += 40)
    now = read(now, pick, Math.round(2 * pick * factor));
  return now;
}

describe('without a reading', () => {
  it('a length is the plan’s, give or take the prior’s 6 %', () => {
    const { mm, low, high, sd } = length(NEW, 200);
    expect(mm).toBeCloseTo(400, 6);
    // 1.645 standard deviations to either side (the normal table), and the beat drifts besides.
    expect(low).toBeLessThan(400 - 1.645 * 24);
    expect(high).toBeGreaterThan(400 + 1.645 * 24);
    expect(sd).toBeGreaterThan(24);
    expect(sd).toBeLessThan(1.15 * 24);
  });

  it('a prior from earlier pieces stands for the plan', () => {
    const beat = startBeat(2, { factor: 1.1, spread: 0.01 });
    expect(length(beat, 200).mm).toBeCloseTo(440, 6);
    expect(width(length(beat, 200))).toBeLessThan(width(length(NEW, 200)));
    expect(factorOf(beat, 0).factor).toBeCloseTo(1.1, 6);
  });

  it('nothing is woven at the start', () => {
    expect(length(NEW, 0)).toMatchObject({ mm: expect.closeTo(0, 6), sd: expect.closeTo(0, 6) });
  });
});

describe('a reading', () => {
  it.each([
    // Woven 8 % looser: 40 picks of 2 mm are 86.4 mm.
    ['looser', 1.08],
    ['as planned', 1],
    ['closer', 0.9],
  ])('of cloth woven %s moves everything to what was read', (_, factor) => {
    const beat = readEvery40(factor, 320);
    expect(length(beat, 320).mm).toBeCloseTo(640 * factor, -0.2);
    expect(Math.abs(length(beat, 100).mm - 200 * factor)).toBeLessThan(1);
    expect(Math.abs(length(beat, 640).mm - 1280 * factor)).toBeLessThan(4);
    expect(Math.abs(factorOf(beat, 0).factor - factor)).toBeLessThan(0.01);
  });

  it('leaves the fell known to about its own error, less the more there are', () => {
    const widths = [40, 80, 160, 320].map((picks) =>
      width(length(readEvery40(1.02, picks), picks)),
    );
    expect(widths[0]).toBeLessThan(8);
    expect(widths[3]).toBeLessThan(0.9 * (widths[0] ?? 0));
  });

  it('within the interval expected of it never makes the fell less well known', () => {
    const picks = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 8 });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(picks, share), { minLength: 1, maxLength: 6 }), (readings) => {
        let beat = NEW;
        let pick = 0;
        for (const [more, where] of readings) {
          pick += more.reduce((a, b) => a + b, 0) + 1;
          const before = length(beat, pick);
          beat = read(beat, pick, before.low + where * width(before));
          expect(width(length(beat, pick))).toBeLessThanOrEqual(width(before) + 1e-6);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('tells of earlier picks too: they lie between the readings around them', () => {
    const beat = readEvery40(1.05, 200);
    const before = readEvery40(1.05, 120);
    const [early, late] = [length(before, 100), length(beat, 100)];
    expect(width(late)).toBeLessThan(width(early));
    for (let pick = 1; pick <= 200; pick++)
      expect(length(beat, pick).mm).toBeGreaterThan(length(beat, pick - 1).mm);
  });

  it('that is no number, or from a pin not there, changes nothing', () => {
    const beat = readEvery40(1, 80);
    for (const mm of [Number.NaN, Number.POSITIVE_INFINITY, 1e300]) {
      expect(read(beat, 100, mm)).toBe(beat);
      expect(woveByLength(beat, evenly, at(100), 80, mm)).toBe(beat);
    }
    expect(woveByLength(beat, evenly, at(100), 80, -1)).toBe(beat);
    const unknown: ReadFrom = { kind: 'pin', pin: 'nowhere' };
    expect(measured(beat, evenly, at(100), reading(50, unknown))).toBe(beat);
  });

  it('misread by 3 cm hardly moves what is believed, once more readings are in', () => {
    const clean = readEvery40(1.03, 160);
    const slip = read(readEvery40(1.03, 120), 140, 288 + 30);
    const after = read(slip, 160, 330);
    expect(Math.abs(length(after, 160).mm - length(clean, 160).mm)).toBeLessThan(1.5);
    expect(Math.abs(length(after, 320).mm - length(clean, 320).mm)).toBeLessThan(8);
  });

  it('however absurd carries nothing away, and is not believed', () => {
    const known = readEvery40(1.03, 160);
    for (const mm of [0, 20, 3000, 1e6]) {
      const after = read(known, 170, mm);
      expect(Math.abs(length(after, 170).mm - 350)).toBeLessThan(3);
      expect(Math.abs(factorOf(after, 0).factor - 1.03)).toBeLessThan(0.02);
    }
  });

  it('told by one after another means that picks were miscounted, not that the beat changed', () => {
    let beat = readEvery40(1, 200);
    // Twenty picks were thrown and not tapped.
    for (const pick of [240, 280, 320, 360]) beat = read(beat, pick, 2 * pick + 40);
    expect(Math.abs(length(beat, 360).mm - 760)).toBeLessThan(3);
    expect(Math.abs(factorOf(beat, 0).factor - 1)).toBeLessThan(0.02);
  });
});

describe('a pin', () => {
  const pin: ReadFrom = { kind: 'pin', pin: 'p' };
  const known = readEvery40(1.05, 120);

  it('carries a reading from where it is', () => {
    const beat = measured(pinned(known, evenly, at(120), 'p'), evenly, at(160), reading(84, pin));
    expect(Math.abs(length(beat, 160).mm - 336)).toBeLessThan(1.5);
  });

  it('knows a length less well than the start does', () => {
    const there = pinned(known, evenly, at(120), 'p');
    const fromPin = measured(there, evenly, at(160), reading(84, pin));
    const fromStart = measured(there, evenly, at(160), reading(336));
    expect(width(length(fromPin, 160))).toBeGreaterThan(width(length(fromStart, 160)));
  });

  it('that is not the last one can still be measured from, a little less surely', () => {
    const first = pinned(known, evenly, at(120), 'p');
    const second = pinned(first, evenly, at(140), 'q');
    const fromLast = measured(first, evenly, at(160), reading(84, pin));
    const fromOlder = measured(second, evenly, at(160), reading(84, pin));
    expect(Math.abs(length(fromOlder, 160).mm - length(fromLast, 160).mm)).toBeLessThan(0.5);
    expect(width(length(fromOlder, 160))).toBeLessThan(width(length(second, 160)));
    expect(width(length(fromOlder, 160))).toBeGreaterThan(0.93 * width(length(fromLast, 160)));
  });
});

describe('picks taken out', () => {
  it('leave what was learnt of the cloth that is left', () => {
    const beat = readEvery40(1.06, 240);
    const back = takenBackTo(beat, evenly, at(150));
    for (const pick of [40, 100, 150]) {
      expect(length(back, pick).mm).toBeCloseTo(length(beat, pick).mm, 2);
      expect(width(length(back, pick))).toBeCloseTo(width(length(beat, pick)), 1);
    }
  });

  it('and woven again are cloth anew', () => {
    const back = takenBackTo(readEvery40(1.06, 240), evenly, at(150));
    expect(width(length(back, 240))).toBeGreaterThan(width(length(readEvery40(1.06, 240), 240)));
    const again = read(read(back, 200, 424), 240, 509);
    expect(Math.abs(length(again, 240).mm - 509)).toBeLessThan(1.5);
    expect(length(again, 150).mm).toBeCloseTo(length(back, 150).mm, 0);
  });

  it('take their pins with them; those in the cloth that is left can be measured from', () => {
    let beat = readEvery40(1, 80);
    for (const [i, name] of ['p', 'q', 'r'].entries())
      beat = pinned(beat, evenly, at(90 + 10 * i), name);
    const back = takenBackTo(beat, evenly, at(105));
    const from = (name: string): ReadFrom => ({ kind: 'pin', pin: name });
    for (const pin of ['p', 'q'])
      expect(measured(back, evenly, at(110), reading(20, from(pin)))).not.toBe(back);
    expect(measured(back, evenly, at(110), reading(20, from('r')))).toBe(back);
  });

  it('back to where nothing was measured since, change nothing', () => {
    const beat = readEvery40(1, 80);
    expect(takenBackTo(beat, evenly, at(90))).toBe(beat);
    expect(takenBackTo(beat, evenly, at(80))).toBe(beat);
  });

  it('of a new piece lead back into the one before', () => {
    const first = readEvery40(1.04, 200);
    const second = read(first, 60, 124, 1);
    const back = takenBackTo(second, evenly, at(100, 0));
    expect(length(back, 100).mm).toBeCloseTo(length(first, 100).mm, 1);
    expect(length(read(back, 200, 418), 200).mm).toBeCloseTo(418, -0.5);
  });

  it('a reading before the last mark takes out the picks after it', () => {
    const beat = readEvery40(1, 120);
    expect(read(beat, 100, 203)).toEqual(read(takenBackTo(beat, evenly, at(100)), 100, 203));
  });
});

describe('a length woven without counting', () => {
  const known = readEvery40(1.05, 120);
  const beat = woveByLength(known, evenly, at(158), 120, 80);

  it('adds its length and teaches nothing about the beat', () => {
    expect(length(beat, 158).mm).toBeCloseTo(length(known, 120).mm + 80, 1);
    expect(factorOf(beat, 0).factor).toBeCloseTo(factorOf(known, 0).factor, 3);
    expect(width(length(beat, 158))).toBeGreaterThan(width(length(known, 120)));
  });

  it('is no better known than two readings tell, however short', () => {
    const short = woveByLength(known, evenly, at(122), 120, 5);
    const [before, after] = [length(known, 120).sd, length(short, 122).sd];
    expect(after).toBeGreaterThan(Math.hypot(before, 1.8));
    expect(after).toBeLessThan(Math.hypot(before, 3));
  });

  it('is shared out over its picks, estimated as they are', () => {
    expect(length(beat, 139).mm).toBeCloseTo(length(known, 120).mm + 40, 1);
  });

  it('is corrected by the next reading, picks or no picks', () => {
    const wrong = woveByLength(known, evenly, at(150), 120, 80);
    const after = read(wrong, 170, 374);
    expect(Math.abs(length(after, 170).mm - 374)).toBeLessThan(2);
    expect(Math.abs(factorOf(after, 0).factor - 1.05)).toBeLessThan(0.02);
  });
});

describe('an eased warp', () => {
  it('read after tight readings tells how much the cloth eases, and no length is lost', () => {
    let beat = readEvery40(1, 200);
    // 3 % shorter when eased: 400 mm show as 388.
    for (const [pick, mm] of [
      [200, 388],
      [240, 466],
      [280, 543],
    ] as const)
      beat = measured(beat, evenly, at(pick), reading(mm, START, 'eased'));
    expect(Math.abs(length(beat, 280).mm - 560)).toBeLessThan(4);
    expect(Math.abs(factorOf(beat, 0).factor - 1)).toBeLessThan(0.01);
  });

  it('alone leaves a length known no better than the easing', () => {
    let beat = NEW;
    for (let pick = 40; pick <= 240; pick += 40)
      beat = measured(beat, evenly, at(pick), reading(2 * pick, START, 'eased'));
    // 1.5 % (sd) of 480 mm, 1.645 of it to either side.
    expect(width(length(beat, 240))).toBeGreaterThan(2 * 1.645 * 0.012 * 480);
    expect(length(beat, 240).mm).toBeGreaterThan(484);
  });
});

describe('a hem in thin yarn', () => {
  it('is no change of beat: once both yarns were read, each has its own', () => {
    let beat = NEW;
    let shown = 0;
    // A woven as planned, B 6 % looser; read at every change of yarn.
    for (let pick = 40; pick <= 640; pick += 40) {
      shown += (pick / 40) % 2 === 1 ? 80 : 40 * 1.06;
      beat = measured(beat, takingTurns, at(pick), reading(Math.round(shown)));
    }
    const [a, b] = [factorOf(beat, 0).factor, factorOf(beat, 1).factor];
    expect(b - a).toBeGreaterThan(0.02);
    expect(Math.abs(a - 1)).toBeLessThan(0.02);
  });
});

describe('a new piece', () => {
  const first = readEvery40(1.1, 240);

  it('begins at nothing, with the beat carried on and less well known', () => {
    const ahead = length(first, 240, 1);
    expect(Math.abs(ahead.mm - 528)).toBeLessThan(8);
    expect(width(ahead)).toBeGreaterThan(width(length(first, 480)) - width(length(first, 240)));
    expect(width(ahead)).toBeLessThan(width(length(startBeat(2, PLANNED), 240)));
  });

  it('begins by itself, and knows no pins of the old one', () => {
    const second = pinned(first, evenly, at(240), 'p');
    const from: ReadFrom = { kind: 'pin', pin: 'p' };
    expect(measured(second, evenly, at(20, 1), reading(40, from))).toBe(second);
    expect(Math.abs(length(read(second, 40, 88, 1), 40, 1).mm - 88)).toBeLessThan(2);
  });

  it('leaves the old one as it was last believed', () => {
    const later = readEvery40Of(1, 0.9, first);
    for (const pick of [0, 50, 240]) expect(length(later, pick)).toEqual(length(first, pick));
  });

  it('woven quite otherwise is soon believed', () => {
    const second = readEvery40Of(1, 0.92, first);
    expect(Math.abs(factorOf(second, 0).factor - 0.92)).toBeLessThan(0.015);
  });

  function readEvery40Of(piece: number, factor: number, beat: Beat): Beat {
    let now = beat;
    for (let pick = 40; pick <= 200; pick += 40)
      now = read(now, pick, Math.round(2 * pick * factor), piece);
    return now;
  }
});

describe('doubt', () => {
  const beat = pinned(readEvery40(1.02, 200), evenly, at(200), 'p');
  const pin: ReadFrom = { kind: 'pin', pin: 'p' };
  const doubt = (mm: number, from: ReadFrom = START, tension: Reading['tension'] = 'tight') =>
    doubtOf(beat, evenly, at(240), reading(mm, from, tension));

  it.each([
    [490, START, 'no'],
    [484, START, 'no'],
    [520, START, 'absurd'],
    [450, START, 'absurd'],
    [49, START, 'absurd'],
    [82, pin, 'no'],
    [110, pin, 'absurd'],
    [-3, pin, 'absurd'],
    [490, { kind: 'pin', pin: 'nowhere' }, 'absurd'],
    [Number.NaN, START, 'absurd'],
  ] as const)('at about 490 mm, 82 mm from the pin, %d from %j: %s', (mm, from, doubtful) => {
    expect(doubt(mm, from).doubtful).toBe(doubtful);
  });

  it('says what the ruler should show, from where it is read', () => {
    expect(Math.abs(doubt(490).expected.mm - 490)).toBeLessThan(2);
    expect(Math.abs(doubt(82, pin).expected.mm - 82)).toBeLessThan(2);
    expect(doubt(482, START, 'eased').expected.mm).toBeLessThan(487);
  });

  it('is not raised by the very first reading of a loose or a close hand', () => {
    for (const mm of [70, 80, 92]) {
      expect(doubtOf(NEW, evenly, at(40), reading(mm)).doubtful).toBe('no');
    }
  });
});

describe('a jump in beat', () => {
  it('of 12 % is said once, with its size and about where it was', () => {
    let beat = readEvery40(1, 240);
    const said = [];
    for (let pick = 280; pick <= 480; pick += 40) {
      beat = read(beat, pick, Math.round(480 + (pick - 240) * 2 * 1.12));
      const jump = jumpAt(beat);
      if (jump !== null) said.push(jump);
    }
    expect(said.length).toBe(1);
    const [jump] = said;
    expect(Math.abs((jump?.ratio ?? 0) - 1.12)).toBeLessThan(0.04);
    expect(Math.abs((beat.marks[jump?.mark ?? -1]?.pick ?? 0) - 280)).toBeLessThanOrEqual(40);
  });

  it('is not said of an even hand', () => {
    let beat = NEW;
    for (let pick = 40; pick <= 800; pick += 40) {
      beat = read(beat, pick, Math.round(2 * pick * 1.03));
      expect(jumpAt(beat)).toBeNull();
    }
  });
});

/** Anything a log may hold, in any order, sense or nonsense. */
const picks = fc.integer({ min: 0, max: 400 });
const piece = fc.integer({ min: 0, max: 2 });
const pins = fc.constantFrom('p', 'q', 'r', 's', 't');
const anyStep = fc.oneof(
  fc.record({ kind: fc.constant('pin' as const), pick: picks, piece, pin: pins }),
  fc.record({ kind: fc.constant('back' as const), pick: picks, piece }),
  fc.record({
    kind: fc.constant('length' as const),
    pick: picks,
    piece,
    more: fc.integer({ min: 0, max: 50 }),
    mm: fc.double({ min: 0, max: 120, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('read' as const),
    pick: picks,
    piece,
    mm: fc.double({ min: -50, max: 1200, noNaN: true }),
    from: fc.oneof(
      fc.constant(START),
      pins.map((pin): ReadFrom => ({ kind: 'pin', pin })),
    ),
    tension: fc.constantFrom('tight' as const, 'eased' as const),
  }),
);

function told(beat: Beat, step: typeof anyStep extends fc.Arbitrary<infer T> ? T : never): Beat {
  const place = at(step.pick, step.piece);
  switch (step.kind) {
    case 'pin':
      return pinned(beat, takingTurns, place, step.pin);
    case 'back':
      return takenBackTo(beat, takingTurns, place);
    case 'length': {
      const end = { ...place, pick: step.pick + step.more };
      return woveByLength(beat, takingTurns, end, step.pick, step.mm);
    }
    case 'read':
      return measured(beat, takingTurns, place, { ...step, reading: 'r' });
  }
}

describe('whatever happens', () => {
  const steps = fc.array(anyStep, { maxLength: 14 });

  it('every length has an interval around it, and no length is lost', () => {
    fc.assert(
      fc.property(steps, picks, piece, (list, pick, where) => {
        const beat = list.reduce(told, NEW);
        const { mm, low, high, sd } = lengthAt(beat, takingTurns, at(pick, where));
        for (const it of [mm, low, high, sd]) expect(it).not.toBeNaN();
        expect(low).toBeLessThanOrEqual(mm);
        expect(mm).toBeLessThanOrEqual(high);
        expect(sd).toBeGreaterThanOrEqual(0);
        expect(factorOf(beat, 1).low).toBeLessThanOrEqual(factorOf(beat, 1).high);
      }),
      { numRuns: 150 },
    );
  });

  it('the same log says the same', () => {
    fc.assert(
      fc.property(steps, picks, (list, pick) => {
        const say = () => lengthAt(list.reduce(told, NEW), takingTurns, at(pick));
        expect(say()).toEqual(say());
      }),
      { numRuns: 30 },
    );
  });

  it('asking changes nothing', () => {
    fc.assert(
      fc.property(steps, steps, (first, then) => {
        const quiet = [...first, ...then].reduce(told, NEW);
        const between = first.reduce(told, NEW);
        for (const pick of [0, 30, 200]) lengthAt(between, takingTurns, at(pick));
        const asked = then.reduce(told, between);
        const say = (beat: Beat) => lengthAt(beat, takingTurns, at(120));
        expect(say(asked)).toEqual(say(quiet));
      }),
      { numRuns: 30 },
    );
  });
});
