/** How big a JSON text is, told before it is parsed: a bomb costs its length and nothing more. */

export interface JsonSize {
  /** Lists and objects within each other at most. */
  readonly nesting: number;
  readonly brackets: number;
  readonly commas: number;
}

const QUOTE = 34;
const COMMA = 44;
const BACKSLASH = 92;
/** `[` and `{`, `]` and `}`: apart by one bit. */
const OPEN = 91 | 32;
const CLOSE = 93 | 32;

/** Counts brackets and commas outside of strings. Of text that is no JSON it says something or other. */
export function jsonSizeOf(text: string): JsonSize {
  let depth = 0;
  let nesting = 0;
  let brackets = 0;
  let commas = 0;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit === QUOTE) i = endOfString(text, i);
    else if (unit === COMMA) commas++;
    else if ((unit | 32) === OPEN) {
      brackets++;
      depth++;
      if (depth > nesting) nesting = depth;
    } else if ((unit | 32) === CLOSE) depth--;
  }
  return { nesting, brackets, commas };
}

/** Where the closing quote is; the end of the text when there is none. */
function endOfString(text: string, start: number): number {
  for (let i = start + 1; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit === BACKSLASH) i++;
    else if (unit === QUOTE) return i;
  }
  return text.length;
}
