/**
 * A compiled message with its values put in. The form is what `compileMessage` of Lingui gives; its own
 * reader is three times as long, and the bench waits for every byte. That both say the same is a test.
 */
import type { Values } from './t.ts';

export type Tokens = readonly Token[];
type Token =
  | string
  | readonly [name: string, type?: string, choices?: Readonly<Record<string, Tokens>>];

/** For one language: plurals by its rules, `#` in its digits, `select` by the word itself, `other` where none fits. */
export function filler(language: string): (tokens: Tokens, values: Values) => string {
  // Made when first asked for: the first screen would wait for them.
  const rules: Record<string, Intl.PluralRules> = {};
  // What counts a number out takes longer to make than a screen to draw: only where digits are grouped.
  const digits = (n: number) => (n < 1000 && n % 1 === 0 ? String(n) : n.toLocaleString(language));
  const filled = (tokens: Tokens, values: Values, count?: number): string =>
    tokens.map((token) => said(token, values, count)).join('');
  const said = (token: Token, values: Values, count?: number): string => {
    if (typeof token === 'string')
      return token === '#' && count !== undefined ? digits(count) : token;
    const [name, type = '', choices] = token;
    const value = values[name] ?? '';
    if (choices === undefined) return String(value);
    if (type === 'select') return filled(choices[value] ?? choices.other ?? [], values, count);
    rules[type] ??= new Intl.PluralRules(language, {
      type: type === 'plural' ? 'cardinal' : 'ordinal',
    });
    const n = Number(value);
    const chosen = choices[value] ?? choices[rules[type].select(n)] ?? choices.other ?? [];
    return filled(chosen, values, n);
  };
  return (tokens, values) => filled(tokens, values);
}
