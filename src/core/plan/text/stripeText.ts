/** One stripe of a warp order in words; `orderText.ts` says how they read. */
import { LIMITS } from '../limits.ts';
import type { Stripe } from '../plan.ts';
import { centreText, cycleText, groupText } from './phrases.ts';
import {
  here,
  type Reader,
  readCycle,
  readGroupItem,
  readWhole,
  readYarn,
  refuse,
  skip,
  startsGroup,
} from './reader.ts';

/** A stripe as `readStripe` reads it, all of it: `24 B`, `9 turns of (2 C, 2 B)` */
export function stripeText(stripe: Stripe): string {
  switch (stripe.kind) {
    case 'solid':
      return `${stripe.ends} ${stripe.yarn}`;
    case 'alternation': {
      const cycle = stripe.cycle.map(({ yarn, ends }) => ({ yarn, count: ends }));
      return `${stripe.turns} turns of ${cycleText(cycle)}`;
    }
    case 'repeat':
      return `${stripe.times} times ${groupText(stripe.of, stripeText)}`;
    case 'mirror':
      return `${centreText(stripe.centre)} ${groupText(stripe.of, stripeText)}`;
  }
}

/** What may follow the number of an item. */
const AFTER_NUMBER = 'a letter, turns of (…), times (…)';
const TURN_WORDS = ['turns', 'turn'];
const WEFT_WORDS = ['pick', 'picks', 'in', 'inch', 'inches', '"', 'cm', 'mm', 'from', 'to'];

/**
 * Reads one stripe, counts in ends; the words of a weft are refused, and null says that a fault is noted.
 * `depth`: how many groups it lies in.
 */
export function readStripe(reader: Reader, depth: number): Stripe | null {
  if (startsGroup(reader)) return readGroupItem(reader, depth, readStripe);
  if (WEFT_WORDS.includes(here(reader).text)) return refuse(reader, 'not-in-a-warp', '');
  return TURN_WORDS.includes(here(reader, 1).text) ? readAlternation(reader) : readSolid(reader);
}

function readSolid(reader: Reader): Stripe | null {
  const ends = readWhole(reader, LIMITS.ends);
  if (ends === null) return null;
  if (WEFT_WORDS.includes(here(reader).text)) return refuse(reader, 'not-in-a-warp', 'ends');
  skip(reader, ['ends', 'end', 'of']);
  const yarn = readYarn(reader, AFTER_NUMBER);
  return yarn === null ? null : { kind: 'solid', yarn, ends };
}

function readAlternation(reader: Reader): Stripe | null {
  const turns = readWhole(reader, LIMITS.ends);
  if (turns === null) return null;
  skip(reader, TURN_WORDS);
  const cycle = readCycle(reader, LIMITS.ends);
  if (cycle === null) return null;
  return {
    kind: 'alternation',
    cycle: cycle.map(({ yarn, count }) => ({ yarn, ends: count })),
    turns,
  };
}
