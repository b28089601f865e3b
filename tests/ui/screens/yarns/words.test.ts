import { describe, expect, test } from 'vitest';
import { accountOf, type ShelfYarn, type YarnUse } from '../../../../src/core/plan/shelf.ts';
import { yardageWords, yarnKindWords } from '../../../../src/ui/parts/yarnWords.ts';
import {
  dentWords,
  gaugeOf,
  heddleWords,
  leftWords,
  plannedWords,
  sinceWords,
} from '../../../../src/ui/screens/yarns/words.ts';

const MOSS: ShelfYarn = {
  id: 'moss',
  name: 'Moss',
  colour: '#5d7043',
  fibre: 'cotton',
  count: { system: 'cottonCount', number: 8, plies: 2 },
  weighed: [{ at: '2025-03-01T12:00:00.000Z', grams: 200 }],
};
const use = (name: string, since: number, toCome: number): YarnUse => ({
  warp: name,
  name,
  since,
  toCome,
});

const plain = (words: string) => words.replaceAll('\u00a0', ' ');

describe('a yarn in words', () => {
  test('says how far it goes, per pound and per 100 g', () => {
    // 8/2 cotton is 3360 yd/lb (ASTM D2260): 677 m in 100 g.
    expect(plain(yardageWords(MOSS.count))).toBe('3360 yd/lb · 677 m/100 g');
    const fine = { system: 'metric', number: 140, plies: 2 } as const;
    expect(plain(yardageWords(fine))).toBe('34\u202f724 yd/lb · 7000 m/100 g');
  });

  test('says its fibre and count, but not twice what its label says', () => {
    expect(yarnKindWords(MOSS.count, 'cotton')).toBe('Cotton, 8/2 cotton count');
    expect(yarnKindWords(MOSS.count, undefined)).toBe('8/2 cotton count');
    expect(yarnKindWords({ system: 'ydPerLb', number: 1800, plies: 1 }, 'wool')).toBe('Wool');
  });
});

describe('the account of a yarn in words', () => {
  test('what is left, in the weaver’s units, with its length', () => {
    expect(leftWords(MOSS, accountOf(MOSS, []), 'metric')).toBe('200 g, about 1350 m');
    expect(leftWords(MOSS, accountOf(MOSS, []), 'inch')).toBe('7 oz, about 1480 yd');
    const unweighed = { ...MOSS, weighed: [] };
    expect(leftWords(unweighed, accountOf(unweighed, []), 'metric')).toBe('Not weighed yet');
    const gone = accountOf(MOSS, [use('Towels', 230, 0)]);
    expect(leftWords(MOSS, gone, 'metric')).toBe('None left, by reckoning');
  });

  test('what was taken since it was weighed, and by whom', () => {
    const account = accountOf(MOSS, [use('Towels', 20, 5), use('Napkins', 30, 0)]);
    expect(sinceWords(account, 'metric')).toBe(
      '50 g taken since it was weighed: Towels and Napkins',
    );
    expect(sinceWords(accountOf(MOSS, [use('Towels', 0, 5)]), 'metric')).toBeNull();
  });

  test.each<[string, number, string, boolean]>([
    ['enough', 150, '50 g will be left over', false],
    ['just enough', 200, '0 g will be left over', false],
    ['short', 260, '60 g short', true],
  ])('what is planned: %s', (_fact, toCome, outcome, short) => {
    const words = plannedWords(accountOf(MOSS, [use('Towels', 0, toCome)]), 'metric');
    expect(words).toEqual({ wanted: `${toCome} g planned: Towels`, outcome, short });
  });

  test('nothing is said of plans there are none of, nor of what is left of the unweighed', () => {
    expect(plannedWords(accountOf(MOSS, [use('Towels', 20, 0)]), 'metric')).toBeNull();
    const unweighed = { ...MOSS, weighed: [] };
    const account = accountOf(unweighed, [use('Towels', 0, 40)]);
    expect(plannedWords(account, 'metric')).toEqual({
      wanted: '40 g planned: Towels',
      outcome: null,
      short: false,
    });
  });

  test('the bar has the length of the longer of the two', () => {
    expect(gaugeOf(accountOf(MOSS, [use('Towels', 0, 50)]))).toEqual({
      planned: '25%',
      spare: '75%',
      missing: '0%',
    });
    expect(gaugeOf(accountOf(MOSS, [use('Towels', 0, 250)]))).toEqual({
      planned: '80%',
      spare: '0%',
      missing: '20%',
    });
  });
});

describe('a heddle in words', () => {
  test('as sold, as counted, and counted the other way', () => {
    const dents = { count: 12.5, per: 'inch', made: 12.7 } as const;
    expect(dentWords(dents)).toBe('12.5 per inch, 12.7 as counted');
    const heddle = { id: 'h', name: 'Fine', dents, width: 609.6 };
    expect(heddleWords(heddle, 'inch')).toBe('49.2 per 10 cm · 24 in wide');
    expect(dentWords({ count: 40, per: '10cm' })).toBe('40 per 10 cm');
  });
});
