/** How far a block goes: `24 picks`, `13 turns`, `2½ in`, `1 yd 4 in`, or a bare number of picks. */
import type { Mm } from '../../measure/length.ts';
import { parseLength } from '../../measure/lengthText.ts';
import { LIMITS } from '../limits.ts';
import type { LengthExtent, PicksExtent, TurnsExtent } from '../plan.ts';
import { here, type Reader, readWhole, refuse, skip } from './reader.ts';

export type TypedExtent = PicksExtent | TurnsExtent | LengthExtent;

/** The shortest block a plan may hold. */
const SHORTEST: Mm = 0.1;

/**
 * Reads turns, picks or a loom length of 0.1 mm to 200 m; a number alone is picks. Null when it is none
 * of these, the fault noted.
 */
export function readExtent(reader: Reader): TypedExtent | null {
  const span = lengthSpan(reader);
  if (span > 0) {
    const loomLength = readLength(reader, span);
    return loomLength === null ? null : { kind: 'length', loomLength };
  }
  const count = readWhole(reader, LIMITS.picks);
  if (count === null) return null;
  if (['turns', 'turn'].includes(here(reader).text)) {
    skip(reader, ['turns', 'turn']);
    return { kind: 'turns', turns: count };
  }
  skip(reader, ['picks', 'pick']);
  return { kind: 'picks', picks: count };
}

/** Yards, feet and inches are six tokens; nobody means more than this. */
const LONGEST_SPAN = 8;

/** How many tokens of the length that stands here: each number with its unit; 0 when there is none. */
function lengthSpan(reader: Reader, ahead = 0): number {
  if (ahead >= LONGEST_SPAN) return 0;
  if (here(reader, ahead).kind !== 'number' || !isUnit(reader, ahead + 1)) return 0;
  return 2 + lengthSpan(reader, ahead + 2);
}

function isUnit(reader: Reader, ahead: number): boolean {
  const { kind, text } = here(reader, ahead);
  if (kind === 'number' || kind === 'end' || !parseLength(`1 ${text}`, 'inch').ok) return false;
  return text !== 'm' || isMetre(reader, ahead);
}

/** `6 m A` and `6 m of (…)` are metres, `6 M` is six picks of yarn M. */
function isMetre(reader: Reader, ahead: number): boolean {
  const { kind, text } = here(reader, ahead + 1);
  if (kind === 'number') return lengthSpan(reader, ahead + 1) > 0;
  return text === 'of' || text === 'by' || text === '(' || text === 'there' || /^[a-z]$/.test(text);
}

function readLength(reader: Reader, span: number): Mm | null {
  const { from } = here(reader);
  const { until } = here(reader, span - 1);
  const place = { from, until };
  const typed = reader.text.slice(from, until);
  // Every number has its unit here, so the units of the plan do not matter.
  const read = parseLength(typed, 'inch');
  if (!read.ok) {
    if (read.problem === 'ambiguous-comma') {
      return refuse(reader, 'ambiguous-comma', typed.replace(',', ''), place);
    }
    return refuse(reader, 'not-a-length', '2½ in, 6 cm', place);
  }
  if (read.value < SHORTEST) return refuse(reader, 'too-small', '0.1 mm', place);
  if (read.value > LIMITS.length) return refuse(reader, 'too-big', '200 m', place);
  reader.at += span;
  return withoutDirt(read.value);
}

/** 6.353 cm is 63.529999999999994 mm to the machine; sixteenths of an inch end within four places. */
function withoutDirt(mm: Mm): Mm {
  return Math.round(mm * 1e4) / 1e4;
}
