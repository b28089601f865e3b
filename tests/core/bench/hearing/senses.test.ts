import fc from 'fast-check';
import { expect, it } from 'vitest';
import { DEFAULT_SENSES, decodeSenses } from '../../../../src/core/bench/hearing/senses.ts';

it.each([undefined, null, 'loud', 7, [], {}])('%j stored is as at first', (stored) => {
  expect(decodeSenses(stored)).toEqual(DEFAULT_SENSES);
});

it('keeps what makes sense and leaves out what does not, field by field', () => {
  const stored = {
    sound: 'picks',
    volume: 11,
    voice: 'on',
    rate: 3,
    ahead: 20,
    throwKey: 'F13',
    undoKey: 9,
    vibration: 'loud',
    colour: 'red',
  };
  expect(decodeSenses(stored)).toEqual({
    ...DEFAULT_SENSES,
    sound: 'picks',
    voice: 'on',
    ahead: 20,
    throwKey: 'F13',
  });
});

it.each([0, 20])('%d picks ahead can be kept', (ahead) => {
  expect(decodeSenses({ ahead }).ahead).toBe(ahead);
});

it.each([-1, 21, 1.5, '3', Number.NaN])('%j picks ahead cannot', (ahead) => {
  expect(decodeSenses({ ahead }).ahead).toBe(DEFAULT_SENSES.ahead);
});

it('whatever was stored, every field is there and of its kind', () => {
  fc.assert(
    fc.property(fc.record(mapValues(DEFAULT_SENSES, () => fc.anything())), (stored) => {
      const senses = decodeSenses(stored);
      expect(mapValues(senses, (it) => typeof it)).toEqual(
        mapValues(DEFAULT_SENSES, (it) => typeof it),
      );
      expect(decodeSenses(senses)).toEqual(senses);
    }),
  );
});

function mapValues<T extends object, R>(object: T, change: (value: unknown) => R) {
  return Object.fromEntries(Object.entries(object).map(([key, it]) => [key, change(it)]));
}
