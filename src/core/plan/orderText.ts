/**
 * A warp order or a weft order as one line that can be typed, and reads back the same.
 *
 * Items follow each other with commas: a number, what it counts, and a yarn's letter.
 *
 *     warp   24 B                              24 ends of B
 *            9 turns of (2 C, 2 B)             an alternation: C and B in turn, nine goes in all
 *     weft   24 picks A    2½ in A    6 cm A   a solid by picks or by loom length
 *            2½ in A odd picks                 … to an odd number of picks (or any; even unless said)
 *            13 turns of (2 A, 2 B)            an alternation by turns,
 *            26 picks of (2 A, 2 B)            by picks,
 *            3 in of (2 A, 2 B) from B to B    by length, with the yarns it opens and closes on
 *            9 turns of (2 A, 2 B, 2 C) there and back    A B C B A B C B A
 *            by eye    20 cm by eye            a part woven by eye, perhaps about so long
 *     both   3 times (24 B, 12 A)              a repeat
 *            mirror (24 B, 12 A)               there and back, the middle once
 *            mirror with the middle twice (24 B, 12 A)
 *
 * Read as well: any case, with or without blanks, commas or line breaks; `x`, `×` or nothing for
 * `times`; `24 ends of B`; `24 A` for picks in a weft; `there and back (…)` for a mirror; every
 * length `parseLength` reads, its unit never left out.
 */
import type { Units } from '../measure/length.ts';
import { ok, type Result } from '../measure/result.ts';
import type { Block, Stripe } from './plan.ts';
import { blockText, readBlock } from './text/blockText.ts';
import type { TextFault } from './text/faults.ts';
import { keepExtras } from './text/keepExtras.ts';
import { readOrder } from './text/reader.ts';
import { readStripe, stripeText } from './text/stripeText.ts';

/** A warp order as text: `24 B, 3 times (2 A, 2 B)`. Says all that stripes hold. */
export function formatStripes(stripes: readonly Stripe[]): string {
  return stripes.map(stripeText).join(', ');
}

/**
 * Reads a warp order, or says the first fault with its place. Letters need not be yarns of a plan:
 * `checkPlan` sees to that. Never throws.
 */
export function parseStripes(text: string): Result<readonly Stripe[], TextFault> {
  return readOrder(text, readStripe);
}

/**
 * A weft order as text, lengths to a hundredth of a millimetre: `2½ in A, 13 turns of (2 A, 2 B)`.
 * Does not say names, resting, starting sides and pick spacings; see `parseBlocks`.
 */
export function formatBlocks(blocks: readonly Block[], units: Units): string {
  return blocks.map((block) => blockText(block, units)).join(', ');
}

/**
 * Reads a weft order, or says the first fault with its place. Never throws.
 *
 * What the text does not say comes from `previous`, the blocks as they were: a block that prints
 * the same stays as it was, whole; one that changed keeps its name, and while its yarns are the
 * same also resting, starting sides and pick spacing. Which block was which is told by their order
 * and likeness, inside groups too. `units` are those the previous blocks were printed in.
 */
export function parseBlocks(
  text: string,
  units: Units,
  previous: readonly Block[] = [],
): Result<readonly Block[], TextFault> {
  const read = readOrder(text, readBlock);
  return read.ok ? ok(keepExtras(read.value, previous, units)) : read;
}
