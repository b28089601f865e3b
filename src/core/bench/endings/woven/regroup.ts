/** A list of laid blocks as the weft of a piece: times round of a repeat that came out alike are a repeat again. */
import type { LaidBlock } from '../../../plan/blocks.ts';
import { LIMITS } from '../../../plan/limits.ts';
import type { Block, Plan, RepeatBlock } from '../../../plan/plan.ts';
import { asBlocks } from './asBlocks.ts';

/** The plan's own blocks for laid blocks in a row: the same picks, in no longer a list than a plan may have. */
export function weftOf(plan: Plan, laid: readonly LaidBlock[]): readonly Block[] {
  const parts = laid.map((it) => ({ laid: it, blocks: asBlocks(it, plan) }));
  return withinLimit(
    grouped(
      parts.filter((it) => it.blocks.length > 0),
      0,
    ),
  );
}

interface Part {
  readonly laid: LaidBlock;
  readonly blocks: readonly Block[];
}

/** One block, or one time round of a repeat. */
type Group =
  | { readonly kind: 'blocks'; readonly blocks: readonly Block[] }
  | { readonly kind: 'pass'; readonly repeat: RepeatBlock; readonly text: string };

function grouped(parts: readonly Part[], depth: number): readonly Block[] {
  const groups: Group[] = [];
  for (let from = 0; from < parts.length; ) {
    const to = passEnd(parts, from, depth);
    const group = groupOf(parts.slice(from, to), depth);
    const last = groups[groups.length - 1];
    if (last?.kind === 'pass' && group.kind === 'pass' && isAlike(last, group)) {
      groups[groups.length - 1] = { ...last, repeat: timesMore(last.repeat) };
    } else groups.push(group);
    from = to;
  }
  return groups.flatMap((group) => (group.kind === 'blocks' ? group.blocks : shown(group.repeat)));
}

/** Where the time round that begins at `from` ends; a block outside a repeat is one by itself. */
function passEnd(parts: readonly Part[], from: number, depth: number): number {
  const first = parts[from]?.laid.passes[depth];
  if (first === undefined) return from + 1;
  let to = from + 1;
  while (to < parts.length) {
    const pass = parts[to]?.laid.passes[depth];
    if (pass?.index !== first.index || pass.name !== first.name || pass.of !== first.of) break;
    to++;
  }
  return to;
}

function groupOf(parts: readonly Part[], depth: number): Group {
  const pass = parts[0]?.laid.passes[depth];
  if (pass === undefined) return { kind: 'blocks', blocks: parts.flatMap((it) => it.blocks) };
  const of = withinLimit(grouped(parts, depth + 1));
  const name = pass.name === null ? {} : { name: pass.name };
  const repeat: RepeatBlock = { kind: 'repeat', ...name, times: 1, of };
  return { kind: 'pass', repeat, text: JSON.stringify(repeat) };
}

function isAlike(
  one: Extract<Group, { kind: 'pass' }>,
  other: Extract<Group, { kind: 'pass' }>,
): boolean {
  return one.text === other.text && one.repeat.times < LIMITS.times;
}

function timesMore(repeat: RepeatBlock): RepeatBlock {
  return { ...repeat, times: repeat.times + 1 };
}

/** A single time round without a name says nothing as a repeat. */
function shown(repeat: RepeatBlock): readonly Block[] {
  return repeat.times === 1 && repeat.name === undefined ? repeat.of : [repeat];
}

/** A list longer than a plan may have, in groups woven once. */
export function withinLimit(blocks: readonly Block[]): readonly Block[] {
  if (blocks.length <= LIMITS.blocks) return blocks;
  const groups = Array.from(
    { length: Math.ceil(blocks.length / LIMITS.blocks) },
    (_, i): Block => ({
      kind: 'repeat',
      times: 1,
      of: blocks.slice(i * LIMITS.blocks, (i + 1) * LIMITS.blocks),
    }),
  );
  return withinLimit(groups);
}
