import { setupI18n } from '@lingui/core';
import { compileMessage } from '@lingui/message-utils/compileMessage';
import { describe, expect, it } from 'vitest';
import { catalogueOf } from '../../scripts/catalogues.mjs';
import { filler, type Tokens } from '../../src/ui/language/filled.ts';
import { LANGUAGES, languageFrom, languageOf } from '../../src/ui/language/languages.ts';
import { t, tParts, type Values } from '../../src/ui/language/t.ts';
import { messages } from './messagesInCode.ts';

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

  it.each(LANGUAGES)('say in $code what Lingui makes of them', ({ code: locale, isFinished }) => {
    const i18n = setupI18n({ locale, messages: { [locale]: {} } });
    i18n.setMessagesCompiler(compileMessage);
    const filled = filler(locale);
    const isTranslated = isFinished && locale !== 'en';
    for (const message of isTranslated ? Object.values(catalogueOf(locale)) : messages) {
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
