import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { MM_PER_INCH, MM_PER_YARD } from '../../../src/core/measure/length.ts';
import { formatMass, G_PER_OUNCE, G_PER_POUND } from '../../../src/core/measure/mass.ts';
import {
  closestSett,
  diameterOf,
  extentOf,
  FIBRES,
  PLAIN,
  perCmOf,
  perInchOf,
  settAsFirmIn,
  shareLeft,
  TOUCHING_CONSTANTS,
  TWILL_2_2,
  threadsIn,
  threadsTouching,
  touchingBy,
  USES,
  workingSett,
} from '../../../src/core/measure/sett.ts';
import { massOf, texOf } from '../../../src/core/measure/yarnCount.ts';

const inch = MM_PER_INCH;
const yard = MM_PER_YARD;

function cotton(number: number, plies = 1): number {
  return texOf({ system: 'cottonCount', number, plies });
}

describe('threads touching per inch', () => {
  it.each([
    [15, 106.5],
    [26, 140.5],
    [32, 156],
  ])(
    'of cotton %ds are %d by 0.95·√(yd/lb), the constant the app uses (TAY p. 453)',
    (count, n) => {
      expect(TOUCHING_CONSTANTS.cotton).toBe(0.95);
      expect(Math.abs(threadsTouching(cotton(count), 'cotton') - n)).toBeLessThanOrEqual(0.7);
    },
  );

  it('of cotton 40s are 165 by 0.90·√(yd/lb) (ASH)', () => {
    expect(Math.abs(touchingBy(0.9, cotton(40)) - 165)).toBeLessThanOrEqual(0.05);
    expect(threadsTouching(cotton(40), 'other')).toBe(touchingBy(0.9, cotton(40)));
  });

  it('times the thickness of the yarn are an inch', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 5000, noNaN: true }),
        fc.constantFrom(...FIBRES),
        (tex, fibre) => {
          expect(threadsTouching(tex, fibre) * diameterOf(tex, fibre)).toBeCloseTo(inch, 9);
        },
      ),
    );
  });
});

describe('the closest sett', () => {
  it('leaves ½ of the touching threads in plain weave and ⅔ in 2/2 twill (TAY p. 436)', () => {
    expect(shareLeft(PLAIN)).toBe(1 / 2);
    expect(shareLeft(TWILL_2_2)).toBe(2 / 3);
    expect(closestSett(cotton(8, 2), 'cotton')).toBe(threadsTouching(cotton(8, 2), 'cotton') / 2);
  });

  it('of plain at 103 per inch is as firm as 2/2 twill at 137⅓ (TAY p. 464)', () => {
    expect(Math.abs(settAsFirmIn(103, PLAIN, TWILL_2_2) - (137 + 1 / 3))).toBeLessThanOrEqual(1e-6);
  });

  it('is above every working sett, and a towel takes 75 to 80 % of it (practice)', () => {
    expect(workingSett(100, 'towel')).toEqual({ from: 75, to: 80 });
    for (const use of USES) {
      const { from, to } = workingSett(100, use);
      expect(from).toBeLessThan(to);
      expect(to).toBeLessThan(100);
    }
  });
});

describe('reeds and heddles', () => {
  it('a 60 reed (Stockport, per 2 in) with 2 and 3 ends a dent gives 60 and 90 epi (TAY p. 243)', () => {
    expect(perInchOf(60 * 2, 2 * inch)).toBeCloseTo(60, 9);
    expect(perInchOf(60 * 3, 2 * inch)).toBeCloseTo(90, 9);
  });

  it.each([
    [30, 7.62],
    [40, 10.16],
    [50, 12.7],
  ])('a heddle of %d dents per 10 cm has %d per inch (rule)', (dents, epi) => {
    expect(perInchOf(dents, 100)).toBeCloseTo(epi, 9);
    expect(perCmOf(epi)).toBeCloseTo(dents / 10, 9);
  });

  it('per inch and per cm agree with a general units library', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 200, noNaN: true }), (sett) => {
        expect(perCmOf(sett)).toBeCloseTo(unit(sett, 'inch^-1').toNumber('cm^-1'), 9);
      }),
    );
  });
});

describe('ends, picks and what they weigh', () => {
  it('38 in in a 60 reed are 2280 ends; 38 yd of 30s weigh 3 lb 7 oz (BRO pp. 93–94)', () => {
    expect(threadsIn(38 * inch, perInchOf(120, 2 * inch))).toBe(2280);
    expect((2280 * 38) / 840).toBeCloseTo(103 + 1 / 7, 9);
    const grams = massOf(2280 * 38 * yard, cotton(30));
    expect(Math.abs(grams / G_PER_OUNCE - 55)).toBeLessThanOrEqual(0.2);
    expect(formatMass(grams, 'inch')).toBe('3 lb 7 oz');
  });

  it('weft 37½ in, 64 picks/in, 36 yd of 36s weighs 2 lb 13¾ oz (BRO p. 94)', () => {
    const grams = massOf(threadsIn(36 * yard, 64) * 37.5 * inch, cotton(36));
    expect(Math.abs(grams / G_PER_OUNCE - 45.75)).toBeLessThanOrEqual(0.1);
    expect(formatMass(grams, 'inch')).toBe('2 lb 13¾ oz');
  });

  it('2260 ends × 38 yd of 30s weigh 3.407 lb (BRO p. 96)', () => {
    const pounds = massOf(2260 * 38 * yard, cotton(30)) / G_PER_POUND;
    expect(Math.abs(pounds - 3.407)).toBeLessThanOrEqual(0.001);
  });

  it('84 yd of cloth at 60 picks/in × 34 in take 204 hanks of weft (TAY p. 436)', () => {
    const yards = (threadsIn(84 * yard, 60) * 34 * inch) / yard;
    expect(yards / 840).toBeCloseTo(204, 9);
  });

  it('10 yd × 45 in at 10 × 10 are 450 ends, 4500 yd and 3600 picks, 4500 yd (WHW)', () => {
    const [ends, picks] = [threadsIn(45 * inch, 10), threadsIn(10 * yard, 10)];
    expect([ends, ends * 10]).toEqual([450, 4500]);
    expect(picks).toBe(3600);
    expect((picks * 45 * inch) / yard).toBeCloseTo(4500, 9);
  });

  it('22 in at 24 epi, 4 yd of 3360 yd/lb: 528 ends, 2112 yd, 0.6286 lb = 285.1 g (MEA)', () => {
    const ends = threadsIn(22 * inch, 24);
    expect([ends, ends * 4]).toEqual([528, 2112]);
    const grams = massOf(ends * 4 * yard, texOf({ system: 'ydPerLb', number: 3360, plies: 1 }));
    expect(Math.abs(grams / G_PER_POUND - 0.6286)).toBeLessThanOrEqual(1e-3);
    expect(Math.abs(grams - 285.1)).toBeLessThanOrEqual(0.05);
  });

  it('threads fill the extent they were counted from, to half a spacing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        (extent, sett) => {
          const back = extentOf(threadsIn(extent, sett), sett);
          expect(Math.abs(back - extent)).toBeLessThanOrEqual(inch / sett / 2 + 1e-6);
        },
      ),
    );
  });
});
