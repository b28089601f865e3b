import { expect, test } from 'vitest';
import { StoreError } from '../../src/store/store.ts';
import { isLostConnection, storeErrorFrom } from '../../src/store/trouble.ts';

test.each<[string, unknown, string, string]>([
  ['a full disk', new DOMException('full', 'QuotaExceededError'), 'quota', 'full'],
  ['a newer version', new DOMException('no', 'VersionError'), 'newer-data', 'VersionError: no'],
  ['a private window', new DOMException('no', 'SecurityError'), 'refused', 'no'],
  ['a lost process', new DOMException('gone', 'UnknownError'), 'lost-connection', 'gone'],
  ['a thing with a name', { name: 'AbortError' }, 'lost-connection', 'AbortError'],
  ['a text', 'no', 'unknown', 'string: no'],
  ['nothing', undefined, 'unknown', 'undefined'],
])('%s thrown is one error with one name, its cause kept', (_what, thrown, trouble, words) => {
  const error = storeErrorFrom(thrown);
  expect(error).toMatchObject({ name: 'StoreError', trouble, cause: thrown });
  expect(error.message).toContain(words);
});

test('our own stays what it is, and another handle would not help it', () => {
  const own = new StoreError('lost-connection', 'closed by us');
  expect(storeErrorFrom(own)).toBe(own);
  expect(isLostConnection(own)).toBe(false);
  expect(isLostConnection(new DOMException('gone', 'AbortError'))).toBe(true);
});
