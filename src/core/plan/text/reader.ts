/**
 * The ground both orders are read on: a place in the tokens, and the first fault met. Every `read…`
 * moves on past what it reads, or notes the fault and answers null; then nothing more is read.
 */
import { parseDecimal, plainText } from '../../measure/quantityText.ts';
import { fail, ok, type Result } from '../../measure/result.ts';
import { LIMITS } from '../limits.ts';
import type { Centre, Letter } from '../plan.ts';
import type { TextFault, TextFaultCode } from './faults.ts';
import { type Token, tokensOf } from './tokens.ts';

export interface Reader {
  readonly text: string;
  readonly tokens: readonly Token[];
  at: number;
  fault: TextFault | null;
}

export type ReadItem<T> = (reader: Reader, depth: number) => T | null;

/** Groups inside groups: what the nesting limit of a plan leaves room for. */
const DEEPEST = 18;
const MIDDLE_WORDS = ['with', 'the', 'its', 'in', 'middle', 'centre', 'center'];
const TIMES_WORDS = ['times', 'time', 'x', '×', '*'];
const SEPARATORS = [',', ';', 'and', 'then'];

/** Reads a whole order; one that is empty or far too long is refused. */
export function readOrder<T>(text: string, readItem: ReadItem<T>): Result<readonly T[], TextFault> {
  const isTooMuch = text.length > LIMITS.fileBytes;
  const reader: Reader = { text, tokens: tokensOf(isTooMuch ? '' : text), at: 0, fault: null };
  if (isTooMuch) refuse(reader, 'too-much', String(LIMITS.fileBytes));
  const items = reader.fault === null ? readItems(reader, 0, readItem) : null;
  if (reader.fault !== null) return fail(reader.fault);
  if (here(reader).text === ')') refuse(reader, 'bracket-unopened', '');
  else if (items === null || items.length === 0) refuse(reader, 'empty', '24 A');
  return reader.fault === null ? ok(items ?? []) : fail(reader.fault);
}

/** `(…)`, with one item at least. */
function readGroup<T>(reader: Reader, depth: number, readItem: ReadItem<T>): readonly T[] | null {
  if (depth >= DEEPEST) return refuse(reader, 'too-deep', String(DEEPEST));
  return readBracket(reader, () => {
    const items = readItems(reader, depth + 1, readItem);
    return items?.length === 0 ? refuse(reader, 'too-few', '1') : items;
  });
}

/** `(2 A, 2 B)`: counts and letters in turn, two at least. */
export function readCycle(
  reader: Reader,
  most: number,
): readonly { readonly yarn: Letter; readonly count: number }[] | null {
  skip(reader, ['of']);
  return readBracket(reader, () => {
    const turns = readItems(reader, 0, () => {
      const count = readWhole(reader, most);
      skip(reader, ['of']);
      const yarn = count === null ? null : readYarn(reader);
      return count === null || yarn === null ? null : { yarn, count };
    });
    if (turns === null) return null;
    if (turns.length < 2) return refuse(reader, 'too-few', '2');
    return turns.length > LIMITS.yarns ? refuse(reader, 'too-many', String(LIMITS.yarns)) : turns;
  });
}

function readBracket<T>(reader: Reader, readInside: () => T | null): T | null {
  if (!take(reader, '(')) return refuse(reader, 'bracket-wanted', '(');
  const inside = readInside();
  if (inside === null) return null;
  return take(reader, ')') ? inside : refuse(reader, 'bracket-unclosed', ')');
}

/** Items up to a closing bracket or the end. Commas may be left out, or stand at the end. */
function readItems<T>(reader: Reader, depth: number, readItem: ReadItem<T>): readonly T[] | null {
  const items: T[] = [];
  for (;;) {
    skip(reader, SEPARATORS);
    const { kind, text } = here(reader);
    if (kind === 'end' || text === ')') return items;
    if (items.length >= LIMITS.blocks) return refuse(reader, 'too-many', String(LIMITS.blocks));
    const item = readItem(reader, depth);
    if (item === null) return null;
    items.push(item);
  }
}

/** What both orders may hold: other items, repeated or mirrored. */
export type GroupItem<T> =
  | { readonly kind: 'repeat'; readonly times: number; readonly of: readonly T[] }
  | { readonly kind: 'mirror'; readonly centre: Centre; readonly of: readonly T[] };

/** Whether a repeat or a mirror begins here. */
export function startsGroup(reader: Reader): boolean {
  return saysMirror(reader) || (here(reader).kind === 'number' && saysTimes(reader, 1));
}

/** `3 times (…)`, `mirror (…)`, `mirror with the middle twice (…)`. */
export function readGroupItem<T>(
  reader: Reader,
  depth: number,
  readItem: ReadItem<T>,
): GroupItem<T> | null {
  if (saysMirror(reader)) {
    const centre = takeMirror(reader);
    const of = readGroup(reader, depth, readItem);
    return of && { kind: 'mirror', centre, of };
  }
  const times = readWhole(reader, LIMITS.times);
  if (times === null) return null;
  skip(reader, TIMES_WORDS);
  const of = readGroup(reader, depth, readItem);
  return of && { kind: 'repeat', times, of };
}

function saysMirror(reader: Reader): boolean {
  const [first, second, third] = [0, 1, 2].map((ahead) => here(reader, ahead).text);
  if (first === 'mirror' || first === 'mirrored') return true;
  return first === 'there' && second === 'and' && third === 'back';
}

/** `times`, `×`, an `x` that is no yarn because a bracket or number follows, or the bracket alone: what makes a number a repeat. */
function saysTimes(reader: Reader, ahead: number): boolean {
  const { text } = here(reader, ahead);
  if (text === 'x') return isNumberOrBracket(here(reader, ahead + 1));
  return text === '(' || TIMES_WORDS.includes(text);
}

function isNumberOrBracket({ kind, text }: Token): boolean {
  return kind === 'number' || text === '(';
}

function takeMirror(reader: Reader): Centre {
  skip(reader, ['mirror', 'mirrored', 'there', 'and', 'back']);
  skip(reader, MIDDLE_WORDS);
  const isTwice = ['twice', 'doubled'].some((word) => take(reader, word));
  if (!isTwice) skip(reader, ['once', 'shared']);
  skip(reader, MIDDLE_WORDS);
  return isTwice ? 'doubled' : 'shared';
}

/** A whole number from 1 to `most`. */
export function readWhole(reader: Reader, most: number): number | null {
  const token = here(reader);
  if (token.kind !== 'number') return refuse(reader, 'number-wanted', '');
  if (!/^\d+$/.test(token.text)) {
    const read = parseDecimal(plainText(token.text));
    if (!read.ok && read.problem === 'ambiguous-comma') {
      return refuse(reader, 'ambiguous-comma', token.text.replace(',', ''));
    }
    return refuse(reader, 'not-whole', '');
  }
  const count = Number(token.text);
  if (count < 1) return refuse(reader, 'too-small', '1');
  if (count > most) return refuse(reader, 'too-big', String(most));
  reader.at++;
  return count;
}

/** A letter, in either case. `right` says what else may stand here. */
export function readYarn(reader: Reader, right = 'A'): Letter | null {
  const { kind, text } = here(reader);
  if (/^[a-z]$/.test(text)) {
    reader.at++;
    return text.toUpperCase();
  }
  const code = kind === 'word' && right !== 'A' ? 'unknown-word' : 'yarn-wanted';
  return refuse(reader, code, right);
}

/** The token at the reader's place, or so many further. */
export function here(reader: Reader, ahead = 0): Token {
  const token = reader.tokens[reader.at + ahead] ?? reader.tokens.at(-1);
  if (token === undefined) throw new Error('here: got no tokens, wanted an end at least');
  return token;
}

/** Moves past a word or sign when it stands here. */
export function take(reader: Reader, text: string): boolean {
  const token = here(reader);
  if (token.kind === 'number' || token.kind === 'end' || token.text !== text) return false;
  reader.at++;
  return true;
}

/** Moves past these words, however many of them stand here. */
export function skip(reader: Reader, words: readonly string[]): void {
  while (words.some((word) => take(reader, word)));
}

/** Notes a fault at the reader's place, or where told, unless one was noted before. */
export function refuse(
  reader: Reader,
  code: TextFaultCode,
  right: string,
  at: Pick<Token, 'from' | 'until'> = here(reader),
): null {
  reader.fault ??= {
    code,
    from: at.from,
    until: at.until,
    got: reader.text.slice(at.from, at.until).slice(0, 30),
    right,
  };
  return null;
}
