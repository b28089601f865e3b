import { describe, expect, it } from 'vitest';
import { decodePhoto } from '../../../src/core/journal/photo.ts';

describe('a photo', () => {
  const kept = {
    version: 1,
    id: 'p',
    at: '2024-05-01T10:00:00.000Z',
    type: 'image/jpeg',
    width: 2,
    height: 2,
    data: '/9j/4AAQ',
  };

  it('reads back from JSON as it was', () => {
    expect(decodePhoto(JSON.parse(JSON.stringify(kept)))).toEqual({ ok: true, value: kept });
  });

  it.each([
    ['data', { ...kept, data: '<svg>' }],
    ['type', { ...kept, type: 'image/svg+xml' }],
    ['at', { ...kept, at: 'yesterday' }],
    ['width', { ...kept, width: 0 }],
  ])('is refused for its %s, by name', (path, input) => {
    const read = decodePhoto(input);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.problem[0]?.path).toBe(path);
  });
});
