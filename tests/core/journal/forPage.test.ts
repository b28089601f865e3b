import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  forPage,
  LINE_LENGTH,
  linesOf,
  MOST_LINES,
  type PageLine,
} from '../../../src/core/journal/forPage.ts';

const short = (isNote = false): PageLine => ({ text: 'Woven to its end', isNote });
const long = (lines: number): PageLine => ({ text: 'x'.repeat(lines * LINE_LENGTH), isNote: true });

describe('a page', () => {
  it('has an entry take as many lines as its words, three at most', () => {
    expect([short(), long(2), long(9), { text: 'a\nb', isNote: true }].map(linesOf)).toEqual([
      1,
      2,
      MOST_LINES,
      2,
    ]);
  });

  it('holds everything where there is room', () => {
    expect(forPage([short(), long(2), short()], 4)).toEqual([0, 1, 2]);
  });

  it('keeps notes before all else, and the latest, with a line to tell of the rest', () => {
    const entries = [short(), short(true), short(), short(true), short()];
    expect(forPage(entries, 4)).toEqual([1, 3, 4]);
    expect(forPage(entries, 1)).toEqual([]);
  });

  it('is never fuller than it is', () => {
    const entry = fc.record({ text: fc.string({ maxLength: 400 }), isNote: fc.boolean() });
    fc.assert(
      fc.property(
        fc.array(entry, { maxLength: 20 }),
        fc.integer({ min: 1, max: 20 }),
        (all, room) => {
          const kept = forPage(all, room);
          const lines = kept.reduce((sum, it) => sum + linesOf(all[it] ?? short()), 0);
          expect(lines + (kept.length < all.length ? 1 : 0)).toBeLessThanOrEqual(room);
          expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
        },
      ),
    );
  });
});
