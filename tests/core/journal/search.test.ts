import { describe, expect, it } from 'vitest';
import { holds } from '../../../src/core/journal/search.ts';

describe('a search', () => {
  it.each([
    ['Changed the bobbin of moss', 'bobbin', true],
    ['Changed the bobbin of moss', 'MOSS changed', true],
    ['Crème edge pulls in', 'creme', true],
    ['creme edge', 'crème', true],
    ['anything', '', true],
    ['anything', '   ', true],
    ['Changed the bobbin', 'bobbin chalk', false],
  ])('in “%s” for “%s”: %s', (text, search, found) => {
    expect(holds(text, search)).toBe(found);
  });
});
