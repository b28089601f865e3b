import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setupI18n } from '@lingui/core';
import { compileMessage } from '@lingui/message-utils/compileMessage';
import { describe, expect, it } from 'vitest';
import { catalogueOf, languages, messagesIn } from '../../scripts/catalogues.mjs';
import { root } from '../../scripts/ensure.mjs';
import { filler, type Tokens } from '../../src/ui/language/filled.ts';
import { keyOf } from '../../src/ui/language/keyOf.ts';
import { LANGUAGES, languageFrom, languageOf } from '../../src/ui/language/languages.ts';
import { t, tParts, type Values } from '../../src/ui/language/t.ts';

const ui = join(root, 'src', 'ui');
const messages = new Set(
  readdirSync(ui, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .flatMap((name) => messagesIn(name, readFileSync(join(ui, name), 'utf8')))
    .map(({ message }) => message),
);

/** Names of the placeholders, whatever is said of them. */
function placeholders(message: string): ReadonlySet<string> {
  const names = new Set<string>();
  const look = (tokens: unknown): void => {
    if (!Array.isArray(tokens)) return;
    for (const token of tokens) {
      if (!Array.isArray(token)) continue;
      names.add(String(token[0]));
      for (const branch of Object.values(token[2] ?? {})) look(branch);
    }
  };
  look(compileMessage(message));
  return names;
}

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

describe('the language of the reader', () => {
  it.each([
    [['fr-CA', 'en'], 'fr'],
    [['de-AT', 'fr'], 'fr'],
    [['sv', 'ja'], 'en'],
    [[], 'en'],
  ])('who reads %j reads %s', (preferred, expected) => {
    expect(languageOf(preferred)).toBe(expected);
  });

  it('a choice is taken back only as one of the languages', () => {
    expect(languageFrom('de')).toBe('de');
    expect(languageFrom('xx')).toBeNull();
    expect(languageFrom(null)).toBeNull();
  });
});

describe('messages', () => {
  it('count in words', () => {
    const words = (n: number) =>
      t('In {n, plural, one {# pick} other {# picks}} the piece ends.', { n });
    expect([words(1), words(2), words(1200)]).toEqual([
      'In 1 pick the piece ends.',
      'In 2 picks the piece ends.',
      'In 1,200 picks the piece ends.',
    ]);
  });

  const NUMBERS = [0, 1, 2, 3, 7, 22, 1000, 1234567];

  /** The n-th filling of a message: numbers on all sides of the plural rules, every word it chooses by. */
  function filling(message: string, n: number): Values {
    const values: Record<string, string | number> = {};
    const look = (tokens: unknown): void => {
      if (!Array.isArray(tokens)) return;
      for (const token of tokens) {
        if (!Array.isArray(token)) continue;
        const [name, type, choices = {}] = token;
        const words = Object.keys(choices);
        const word = words[n % Math.max(1, words.length)] ?? `${n}`;
        values[name] = /plural|ordinal/.test(type) ? (NUMBERS[n] ?? 0) : (values[name] ?? word);
        for (const branch of Object.values(choices)) look(branch);
      }
    };
    look(compileMessage(message));
    return values;
  }

  it.each(['en', 'fr', 'de'])('say in %s what Lingui makes of them', (locale) => {
    const i18n = setupI18n({ locale, messages: { [locale]: {} } });
    i18n.setMessagesCompiler(compileMessage);
    const filled = filler(locale);
    for (const message of locale === 'fr' ? Object.values(catalogueOf('fr')) : messages) {
      for (const n of NUMBERS.keys()) {
        const values = filling(message, n);
        const ours = filled(compileMessage(message) as Tokens, values);
        const theirs = i18n._(message, values);
        // In a choice of words inside a plural Lingui leaves the sign as it is; ICU means the number.
        if (/, (plural|selectordinal),/.test(message) && theirs.includes('#'))
          expect(ours, message).not.toContain('#');
        else expect(ours, message).toBe(theirs);
      }
    }
  });

  it.each(LANGUAGES)('have the decimal mark of $name', ({ code, decimal }) => {
    expect(new Intl.NumberFormat(code).format(1.5)).toBe(`1${decimal}5`);
  });

  it('take other things than words, in the order of the language', () => {
    expect(tParts('{most} and {last}', { most: 1, last: 2 })).toEqual([1, ' and ', 2]);
  });
});
