/**
 * Every word on a screen goes through here. A message is written in English where it is used, in the
 * syntax of ICU MessageFormat; the catalogues of the other languages (`src/catalogues`) are keyed by it.
 */

import { loadCatalogue, readMessage } from 'fellmark:catalogues';
import { spokenLanguage } from '../device/language.ts';
import { filler } from './filled.ts';
import { keyOf } from './keyOf.ts';
import type { Language } from './languages.ts';

/** What the placeholders of a message stand for. */
export type Values = Readonly<Record<string, string | number>>;

export const language: Language = spokenLanguage();
if (typeof document !== 'undefined') document.documentElement.lang = language;

// Words are looked up as modules are evaluated, so nothing goes on before they are here. English is
// in the code itself and waits for nothing.
// Words that cannot be fetched must not keep the loom from starting: it speaks English then.
const catalogue = language === 'en' ? null : await loadCatalogue(language).catch(() => null);

const filled = filler(language);

/**
 * The message in the reader's language, its placeholders filled. In English where the language has
 * no words for it yet. The first argument must be a literal: it is read and compiled by the build.
 */
export const t = (message: string, values?: Values): string => inWords(message, values);

function inWords(message: string, values?: Values): string {
  const words = catalogue?.[keyOf(message)] ?? message;
  return values === undefined ? words : filled(readMessage(words), values);
}

/** Marks where a placeholder stood: private use, in no message. */
const MARK = '\u{e000}';

/**
 * The same with other things than words in its placeholders, such as an element in bold: the parts
 * in the order of the reader's language.
 */
export function tParts<T>(
  message: string,
  parts: Readonly<Record<string, T>>,
): readonly (string | T)[] {
  const names = Object.keys(parts);
  const marked = Object.fromEntries(names.map((name) => [name, `${MARK}${name}${MARK}`]));
  return inWords(message, marked)
    .split(MARK)
    .map((it) => parts[it] ?? it)
    .filter((it) => it !== '');
}
