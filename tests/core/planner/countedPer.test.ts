import { expect, it } from 'vitest';
import { countedPer } from '../../../src/core/planner/countedPer.ts';

it.each([
  [40, '10cm', 'inch', 10],
  [50, '10cm', 'inch', 12.5],
  [10, 'inch', '10cm', 40],
  [12.5, 'inch', '10cm', 50],
  // Typed before the width was chosen: nobody sells these counted the other way.
  [10, '10cm', 'inch', 10],
  [12.5, '10cm', 'inch', 12.5],
  [40, 'inch', '10cm', 40],
  [8, 'inch', '10cm', 8],
  [40, '10cm', '10cm', 40],
] as const)('%d counted per %s, chosen per %s, is %d', (count, per, next, counted) => {
  expect(countedPer({ count, per }, next)).toEqual({ count: counted, per: next });
});

it('a heddle that was counted keeps its numbers', () => {
  const dents = { count: 40, per: '10cm', made: 40.5 } as const;
  expect(countedPer(dents, 'inch')).toEqual({ ...dents, per: 'inch' });
});
