/**
 * What the line of text does not say of a block, taken over from the blocks as they were before it
 * was typed: names, resting, starting sides, pick spacing, lengths finer than they are printed.
 */
import type { Units } from '../../measure/length.ts';
import type { AlternationBlock, Block, FreeBlock, SolidBlock } from '../plan.ts';
import { blockText, extentText } from './blockText.ts';

type WovenBlock = SolidBlock | AlternationBlock;

/** How much alike two blocks are; 0 when one cannot come from the other. */
const SAME = 4;
const SAME_YARNS = 2;
const SAME_KIND = 1;

/** The typed blocks, each with the extras of the block before it that it most likely was. */
export function keepExtras(
  typed: readonly Block[],
  previous: readonly Block[],
  units: Units,
): readonly Block[] {
  const old = previous.map((block) => ({ block, text: blockText(block, units) }));
  const pairs = align(
    typed.map((block) => ({ block, text: blockText(block, units) })),
    old,
  );
  return typed.map((block, i) => {
    const from = old[pairs[i] ?? -1]?.block;
    return from === undefined ? block : withExtras(block, from, units);
  });
}

interface Printed {
  readonly block: Block;
  readonly text: string;
}

function likeness(typed: Printed, old: Printed): number {
  if (typed.text === old.text) return SAME;
  if (typed.block.kind !== old.block.kind) return 0;
  return lettersOf(typed.block) === lettersOf(old.block) ? SAME_YARNS : SAME_KIND;
}

/**
 * For each typed block the index of its old one, or nothing: the pairing in order that is most
 * alike in all (the longest common subsequence, weighed).
 */
function align(
  typed: readonly Printed[],
  old: readonly Printed[],
): readonly (number | undefined)[] {
  const best = Array.from({ length: typed.length + 1 }, () => new Int32Array(old.length + 1));
  const at = (i: number, k: number) => best[i]?.[k] ?? 0;
  const alike = typed.map((it) => old.map((before) => likeness(it, before)));
  for (let i = typed.length - 1; i >= 0; i--) {
    const row = best[i] ?? new Int32Array(0);
    for (let k = old.length - 1; k >= 0; k--) {
      const like = alike[i]?.[k] ?? 0;
      const paired = like === 0 ? 0 : like + at(i + 1, k + 1);
      row[k] = Math.max(paired, at(i + 1, k), at(i, k + 1));
    }
  }
  const pairs: (number | undefined)[] = [];
  for (let i = 0, k = 0; i < typed.length; ) {
    const like = alike[i]?.[k] ?? 0;
    if (k >= old.length) pairs[i++] = undefined;
    else if (like > 0 && at(i, k) === like + at(i + 1, k + 1)) pairs[i++] = k++;
    else if (at(i, k) === at(i, k + 1)) k++;
    else pairs[i++] = undefined;
  }
  return pairs;
}

function withExtras(typed: Block, old: Block, units: Units): Block {
  if (blockText(typed, units) === blockText(old, units)) return old;
  const named = old.name === undefined ? typed : { ...typed, name: old.name };
  if (isWoven(named) && isWoven(old)) return withWeaving(named, old, units);
  if (named.kind === 'free' || old.kind === 'free') return keepFree(named, old);
  if (isWoven(named) || isWoven(old)) return named;
  return { ...named, of: keepExtras(named.of, old.of, units) };
}

function keepFree(typed: Block, old: Block): Block {
  if (typed.kind !== 'free' || old.kind !== 'free') return typed;
  const { loomLength, ...extras } = old;
  const kept: FreeBlock = { ...extras, ...typed };
  return kept;
}

/** What is said of yarns holds only while they are the same. */
function withWeaving(typed: WovenBlock, old: WovenBlock, units: Units): WovenBlock {
  const sameExtent = extentText(typed.extent, units) === extentText(old.extent, units);
  const exact = sameExtent ? withExtentOf(typed, old) : typed;
  if (lettersOf(typed) !== lettersOf(old)) return exact;
  const { pickSpacing, resting, starts } = old;
  return {
    ...exact,
    ...(pickSpacing === undefined ? {} : { pickSpacing }),
    ...(resting === undefined ? {} : { resting }),
    ...(starts === undefined ? {} : { starts }),
  };
}

/** The typed block with its length as fine as it was. */
function withExtentOf(typed: WovenBlock, old: WovenBlock): WovenBlock {
  if (typed.extent.kind !== 'length' || old.extent.kind !== 'length') return typed;
  const { loomLength } = old.extent;
  return { ...typed, extent: { ...typed.extent, loomLength } } as WovenBlock;
}

function isWoven(block: Block): block is WovenBlock {
  return block.kind === 'solid' || block.kind === 'alternation';
}

function lettersOf(block: Block): string {
  switch (block.kind) {
    case 'solid':
      return block.yarn;
    case 'alternation':
      return [...new Set(block.cycle.map((turn) => turn.yarn))].sort().join('');
    case 'free':
    case 'repeat':
    case 'mirror':
      return '';
  }
}
