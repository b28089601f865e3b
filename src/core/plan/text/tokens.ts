/** A typed order cut into numbers, words and signs, each with its place in the text. */

export interface Token {
  readonly kind: 'number' | 'word' | 'sign' | 'end';
  /** As typed, in lower case and without the full stop of an abbreviation. */
  readonly text: string;
  /** Half-open range of characters. */
  readonly from: number;
  readonly until: number;
}

/** A number may carry a fraction: `2½`, `2 1/2`, `2-1/2`, `2.5`, `2,5`. A comma parts items unless digits stand on both sides of it. */
const NUMBER =
  /(?:\d+(?:\s+|-))?\d+\s*[/\u2044\u2215]\s*\d+|(?:\d+(?:[.,]\d+)?)?\s*[\u00bc-\u00be\u2150-\u215e]|\d+(?:[.,]\d+)?|\.\d+/y;
const WORD = /\p{L}+/uy;

/** Cuts a text up; never fails: what is neither number nor word is a sign of one character. Linear. */
export function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  let at = 0;
  while (at < text.length) {
    const char = text.charAt(at);
    if (/\s/.test(char)) {
      at++;
      continue;
    }
    const token = tokenAt(text, at);
    tokens.push(token);
    at = token.until;
    // The full stop of `in.` says nothing.
    if (token.kind === 'word' && text.charAt(at) === '.') at++;
  }
  tokens.push({ kind: 'end', text: '', from: text.length, until: text.length });
  return tokens;
}

function tokenAt(text: string, from: number): Token {
  const number = matchAt(NUMBER, text, from);
  if (number !== null) return { kind: 'number', text: number, from, until: from + number.length };
  const word = matchAt(WORD, text, from);
  if (word !== null) {
    return { kind: 'word', text: word.toLowerCase(), from, until: from + word.length };
  }
  return { kind: 'sign', text: text.charAt(from), from, until: from + 1 };
}

function matchAt(pattern: RegExp, text: string, from: number): string | null {
  pattern.lastIndex = from;
  return pattern.exec(text)?.[0] ?? null;
}
