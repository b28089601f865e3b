/** One block of a weft order in words; `orderText.ts` says how they read. */
import type { Units } from '../../measure/length.ts';
import { LIMITS } from '../limits.ts';
import type {
  AlternationBlock,
  Block,
  FreeBlock,
  LengthExtent,
  Letter,
  SolidBlock,
} from '../plan.ts';
import { readExtent, type TypedExtent } from './extentText.ts';
import { centreText, cycleText, exactLengthText, groupText } from './phrases.ts';
import {
  here,
  type Reader,
  readCycle,
  readGroupItem,
  readYarn,
  refuse,
  skip,
  startsGroup,
  take,
} from './reader.ts';

/**
 * A block as `readBlock` reads it, lengths to a hundredth of a millimetre: `2½ in A`, `3 times (…)`.
 * Names, resting, starting sides and pick spacings are not in it.
 */
export function blockText(block: Block, units: Units): string {
  const text = (it: Block) => blockText(it, units);
  switch (block.kind) {
    case 'solid':
      return `${extentText(block.extent, units)} ${block.yarn}${parityText(block)}`;
    case 'alternation':
      return alternationText(block, units);
    case 'free':
      return freeText(block, units);
    case 'repeat':
      return `${block.times} times ${groupText(block.of, text)}`;
    case 'mirror':
      return `${centreText(block.centre)} ${groupText(block.of, text)}`;
  }
}

/** `by eye`, `6 in by eye` */
function freeText({ loomLength }: FreeBlock, units: Units): string {
  return loomLength === undefined ? 'by eye' : `${exactLengthText(loomLength, units)} by eye`;
}

/** `24 picks`, `13 turns`, `2½ in` */
export function extentText(extent: AlternationBlock['extent'], units: Units): string {
  if (extent.kind === 'length') return exactLengthText(extent.loomLength, units);
  return extent.kind === 'picks' ? `${extent.picks} picks` : `${extent.turns} turns`;
}

function parityText({ extent }: SolidBlock): string {
  return extent.kind === 'picks' || extent.parity === undefined ? '' : ` ${extent.parity} picks`;
}

/** The opening yarn goes without saying when it is the first, unless the closing one is said. */
function alternationText(block: AlternationBlock, units: Units): string {
  const { cycle, closes, opens, path } = block;
  const turns = cycle.map(({ yarn, picks }) => ({ yarn, count: picks }));
  return [
    `${extentText(block.extent, units)} of ${cycleText(turns)}`,
    path === 'there-and-back' ? 'there and back' : '',
    closes !== undefined || opens !== cycle[0]?.yarn ? `from ${opens}` : '',
    closes === undefined ? '' : `to ${closes}`,
  ]
    .filter((it) => it !== '')
    .join(' ');
}

/** What may follow the number of an item. */
const AFTER_NUMBER = 'picks, in, cm, turns of (…), times (…)';
const PARITIES = ['odd', 'even', 'any'] as const;

/**
 * Reads one block, lengths in mm; the words of a warp are refused, and null says that a fault is noted.
 * `depth`: how many groups it lies in.
 */
export function readBlock(reader: Reader, depth: number): Block | null {
  if (startsGroup(reader)) return readGroupItem(reader, depth, readBlock);
  if (['end', 'ends'].includes(here(reader, 1).text)) {
    return refuse(reader, 'not-in-a-weft', 'picks', here(reader, 1));
  }
  if (takeByEye(reader)) return { kind: 'free' };
  const extent = readExtent(reader);
  if (extent === null) return null;
  if (extent.kind === 'length' && takeByEye(reader)) {
    return { kind: 'free', loomLength: extent.loomLength };
  }
  skip(reader, ['of']);
  const isAlternation = extent.kind === 'turns' || here(reader).text === '(' || saysBack(reader);
  return isAlternation ? readAlternation(reader, extent) : readSolid(reader, extent);
}

function takeByEye(reader: Reader): boolean {
  if (here(reader).text !== 'by' || here(reader, 1).text !== 'eye') return false;
  skip(reader, ['by', 'eye']);
  return true;
}

function readSolid(
  reader: Reader,
  extent: Exclude<TypedExtent, { kind: 'turns' }>,
): SolidBlock | null {
  const isBare = extent.kind === 'picks' && here(reader, -1).kind === 'number';
  const yarn = readYarn(reader, isBare ? AFTER_NUMBER : 'A');
  if (yarn === null) return null;
  return {
    kind: 'solid',
    yarn,
    extent: extent.kind === 'picks' ? extent : withParity(reader, extent),
  };
}

function withParity(reader: Reader, extent: LengthExtent): LengthExtent {
  const ahead = here(reader).text === 'in' ? 1 : 0;
  const parity = PARITIES.find((it) => it === here(reader, ahead).text);
  if (parity === undefined) return extent;
  skip(reader, ['in', parity]);
  skip(reader, ['number', 'of', 'picks', 'pick']);
  return { ...extent, parity };
}

interface Suffixes {
  path: AlternationBlock['path'];
  opens?: Letter;
  closes?: Letter;
}

function readAlternation(reader: Reader, extent: TypedExtent): AlternationBlock | null {
  const said: Suffixes = { path: 'round' };
  if (saysBack(reader)) takeBack(reader, said);
  const cycle = readCycle(reader, LIMITS.picks);
  if (cycle === null || !readSuffixes(reader, said)) return null;
  return {
    kind: 'alternation',
    cycle: cycle.map(({ yarn, count }) => ({ yarn, picks: count })),
    path: said.path,
    opens: said.opens ?? cycle[0]?.yarn ?? 'A',
    ...(said.closes === undefined ? {} : { closes: said.closes }),
    extent,
  };
}

/** `there and back`, `from B`, `to B`, in any order; whether all of them could be read. */
function readSuffixes(reader: Reader, said: Suffixes): boolean {
  for (;;) {
    // Before a bracket it is a mirror: the next item, its comma left out.
    if (saysBack(reader) && !['(', 'with'].includes(here(reader, 3).text)) takeBack(reader, said);
    else if (take(reader, 'round')) said.path = 'round';
    else if (here(reader).text === 'from' || here(reader).text === 'to') {
      const end = take(reader, 'from') ? 'opens' : 'closes';
      skip(reader, ['to']);
      const yarn = readYarn(reader);
      if (yarn === null) return false;
      said[end] = yarn;
    } else return true;
  }
}

function saysBack(reader: Reader): boolean {
  return ['there', 'and', 'back'].every((word, i) => here(reader, i).text === word);
}

function takeBack(reader: Reader, said: Suffixes): void {
  skip(reader, ['there', 'and', 'back']);
  said.path = 'there-and-back';
}
