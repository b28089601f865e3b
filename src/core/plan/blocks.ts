/**
 * Weft blocks turned into turns of yarn: what a block of the plan becomes at the beat now known.
 *
 * A laid block is a stretch of an endlessly repeated *period* of turns, so a repeat of a thousand
 * turns costs as little as one, and taking it backwards is arithmetic instead of a copy.
 */
import type { Mm } from '../measure/length.ts';
import { layTurns, spacingsIn, type Turns } from './blockTurns.ts';
import type { Block, Centre, MirrorBlock, Plan, RepeatBlock } from './plan.ts';

export type BlockRole = 'solid' | 'alternation' | 'free' | 'hem' | 'zigzag' | 'plain';

/** Which time round of a repeat a laid block belongs to; counted from 0. */
export interface Pass {
  readonly name: string | null;
  readonly index: number;
  readonly of: number;
}

export interface LaidBlock extends Turns {
  readonly role: BlockRole;
  /** Path of the plan's block this comes from, such as `pieces[0].weft[2].of[1]`. */
  readonly source: string;
  readonly name: string | null;
  readonly passes: readonly Pass[];
  /** Laid backwards, as the second half of a mirror. */
  readonly mirrored: boolean;
  /** Picks of the last turn where the block was cut or stretched inside it. */
  readonly lastTurnPicks: number | null;
  /** Planned loom length, when the block was planned by length. */
  readonly plannedLength: Mm | null;
  /** Planned millimetres per pick of each yarn index in this block. */
  readonly spacings: readonly Mm[];
  /** The plan's own words on resting and starting sides in this block. */
  readonly block: Exclude<Block, { kind: 'repeat' | 'mirror' }> | null;
}

/** Yarn index and picks of the k-th turn of a laid block. */
export function turnOf(
  laid: LaidBlock,
  k: number,
): { readonly yarn: number; readonly picks: number } {
  const at = (laid.firstTurn + k) % laid.period.yarns.length;
  const picks =
    k === laid.turns - 1 && laid.lastTurnPicks !== null
      ? laid.lastTurnPicks
      : laid.period.picks[at];
  return { yarn: laid.period.yarns[at] ?? 0, picks: picks ?? 0 };
}

/** Picks of a laid block, its last turn as long as it was cut or stretched. */
export function picksOf(laid: LaidBlock): number {
  let picks = 0;
  for (let k = 0; k < laid.turns; k++) picks += turnOf(laid, k).picks;
  return picks;
}

/** Loom length of a laid block at the planned beat. */
export function plannedLengthOf(laid: LaidBlock): Mm {
  let length = 0;
  for (let k = 0; k < laid.turns; k++) {
    const { yarn, picks } = turnOf(laid, k);
    length += picks * (laid.spacings[yarn] ?? 0);
  }
  return length;
}

/** Lays the weft of one piece, hems and seam allowances not included. */
export function layWeft(plan: Plan, piece: number): readonly LaidBlock[] {
  return layAll(plan, plan.pieces[piece]?.weft ?? [], `pieces[${piece}].weft`, []);
}

function layAll(
  plan: Plan,
  blocks: readonly Block[],
  path: string,
  passes: readonly Pass[],
): LaidBlock[] {
  return blocks.flatMap((block, i) => layBlock(plan, block, `${path}[${i}]`, passes));
}

function layBlock(
  plan: Plan,
  block: Block,
  source: string,
  passes: readonly Pass[],
): readonly LaidBlock[] {
  switch (block.kind) {
    case 'repeat':
      return repeated(plan, block, source, passes);
    case 'mirror':
      return mirrorLaid(layAll(plan, block.of, `${source}.of`, passes), block.centre);
    case 'free':
    case 'solid':
    case 'alternation': {
      const spacings = spacingsIn(plan, block.pickSpacing);
      const turns = layTurns(plan, block, spacings);
      return [
        {
          role: block.kind,
          source,
          name: block.name ?? null,
          passes,
          mirrored: false,
          lastTurnPicks: null,
          plannedLength: lengthAskedOf(block),
          spacings,
          block,
          ...turns,
        },
      ];
    }
  }
}

/** Laid once: the passes are alike, but for their own number. */
function repeated(
  plan: Plan,
  { name, times, of }: RepeatBlock,
  source: string,
  passes: readonly Pass[],
): readonly LaidBlock[] {
  const passAt = (index: number): Pass => ({ name: name ?? null, index, of: times });
  const first = layAll(plan, of, `${source}.of`, [...passes, passAt(0)]);
  const laid: LaidBlock[] = [];
  for (let index = 0; index < times; index++) {
    const pass = passAt(index);
    for (const block of first) {
      laid.push({ ...block, passes: block.passes.with(passes.length, pass) });
    }
  }
  return laid;
}

function lengthAskedOf(block: Exclude<Block, RepeatBlock | MirrorBlock>): Mm | null {
  return block.kind !== 'free' && block.extent.kind === 'length' ? block.extent.loomLength : null;
}

/**
 * Blocks followed by themselves backwards. The centre run is woven once when shared: every turn
 * that would melt into it is left out of the second half.
 */
function mirrorLaid(half: readonly LaidBlock[], centre: Centre): readonly LaidBlock[] {
  const back = [...half].reverse().map(reverseLaid);
  if (centre === 'doubled') return [...half, ...back];
  return [...half, ...dropLeading(back)];
}

/** A block of whole turns laid backwards. */
export function reverseLaid(laid: LaidBlock): LaidBlock {
  const length = laid.period.yarns.length;
  const last = (laid.firstTurn + laid.turns - 1) % length;
  return {
    ...laid,
    mirrored: !laid.mirrored,
    period: { yarns: [...laid.period.yarns].reverse(), picks: [...laid.period.picks].reverse() },
    firstTurn: length - 1 - last,
  };
}

function dropLeading(blocks: readonly LaidBlock[]): readonly LaidBlock[] {
  const [first, ...rest] = blocks;
  if (first === undefined) return [];
  const centreYarn = turnOf(first, 0).yarn;
  let dropped = 0;
  while (dropped < first.turns && turnOf(first, dropped).yarn === centreYarn) dropped++;
  if (dropped < first.turns) {
    const firstTurn = (first.firstTurn + dropped) % first.period.yarns.length;
    return [{ ...first, firstTurn, turns: first.turns - dropped }, ...rest];
  }
  const next = rest[0];
  return next !== undefined && turnOf(next, 0).yarn === centreYarn ? dropLeading(rest) : rest;
}

/** The same block with exactly this many picks: cut short, or going on as it went. */
export function withPicks(laid: LaidBlock, picks: number): LaidBlock {
  let left = picks;
  let turns = 0;
  while (left > 0) {
    const at = (laid.firstTurn + turns) % laid.period.yarns.length;
    const turn = laid.period.yarns.length === 1 ? left : (laid.period.picks[at] ?? left);
    turns++;
    if (left <= turn) return { ...laid, turns, lastTurnPicks: left };
    left -= turn;
  }
  return { ...laid, turns: 0, lastTurnPicks: null };
}

/** The same block with so many picks more, all of them in the yarn of its last turn. */
export function withLongerLastTurn(laid: LaidBlock, more: number): LaidBlock {
  if (laid.turns === 0) return withPicks(laid, more);
  return { ...laid, lastTurnPicks: turnOf(laid, laid.turns - 1).picks + more };
}
