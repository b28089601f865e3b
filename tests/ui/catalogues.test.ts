import { describe, expect, it } from 'vitest';
import { catalogueOf, languages } from '../../scripts/catalogues.mjs';
import { keyOf } from '../../src/ui/language/keyOf.ts';
import { LANGUAGES } from '../../src/ui/language/languages.ts';
import { messages, placeholders } from './messagesInCode.ts';

describe('catalogues', () => {
  it('every language has one but English, which is in the code', () => {
    expect(languages).toEqual(
      LANGUAGES.map(({ code }) => code)
        .filter((it) => it !== 'en')
        .sort(),
    );
  });

  it('no two messages share a key', () => {
    expect(messages.size).toBeGreaterThan(0);
    expect(new Set([...messages].map(keyOf)).size).toBe(messages.size);
  });

  it.each(languages)('%s has every message of the code and no other', (language) => {
    expect(new Set(Object.keys(catalogueOf(language)))).toEqual(messages);
  });

  const finished = LANGUAGES.filter((it) => it.isFinished && it.code !== 'en');
  it.each(finished)('$name has words for every message', ({ code }) => {
    const missing = Object.entries(catalogueOf(code)).filter(([, words]) => words === '');
    expect(missing.map(([english]) => english)).toEqual([]);
  });

  it.each(languages)('%s fills the same placeholders as English', (language) => {
    for (const [english, words] of Object.entries(catalogueOf(language))) {
      if (words !== '') expect(placeholders(words), english).toEqual(placeholders(english));
    }
  });
});
