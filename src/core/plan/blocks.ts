/**
 * Weft blocks turned into turns of yarn: what a block of the plan becomes at the beat now known.
 *
 * A laid block is a stretch of an endlessly repeated *period* of turns, so a repeat of a thousand
 * turns costs as little as one, and taking it backwards is arithmetic instead of a copy.
 */
import type { Mm } from '../measure/length.ts';
import { NOTHING_BY_EYE } from './freeBlock.ts';
import { LIMITS } from './limits.ts';
import type {
  AlternationBlock,
  Block,
  Centre,
  LengthExtent,
  Letter,
  MirrorBlock,
  Plan,
  RepeatBlock,
} from './plan.ts';

export interface Period {
  /** Yarn index of each turn of one period. */
  readonly yarns: readonly number[];
  /** Picks of each turn of one period. */
  readonly picks: readonly number[];
}

export type BlockRole = 'solid' | 'alternation' | 'free' | 'hem' | 'zigzag' | 'plain';

/** Which time round of a repeat a laid block belongs to; counted from 0. */
export interface Pass {
  readonly name: string | null;
  readonly index: number;
  readonly of: number;
}

export interface LaidBlock {
  readonly role: BlockRole;
  /** Path of the plan's block this comes from, such as `pieces[0].weft[2].of[1]`. */
  readonly source: string;
  readonly name: string | null;
  readonly passes: readonly Pass[];
  /** Laid backwards, as the second half of a mirror. */
  readonly mirrored: boolean;
  readonly period: Period;
  /** Place in the period of the first turn. */
  readonly firstTurn: number;
  readonly turns: number;
  /** Picks of the last turn where the block was cut or stretched inside it. */
  readonly lastTurnPicks: number | null;
  /** Planned loom length, when the block was planned by length. */
  readonly plannedLength: Mm | null;
  /** Planned millimetres per pick of each yarn index in this block. */
  readonly spacings: readonly Mm[];
  /** The plan's own words on resting and starting sides in this block. */
  readonly block: Exclude<Block, { kind: 'repeat' | 'mirror' }> | null;
  /** Of a part woven by eye that is not ended: its last pick is not woven, it stands for the next one. */
  readonly isOpen?: true;
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
    case 'repeat': {
      const name = block.name ?? null;
      return Array.from({ length: block.times }, (_, index) =>
        layAll(plan, block.of, `${source}.of`, [...passes, { name, index, of: block.times }]),
      ).flat();
    }
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

function lengthAskedOf(block: Exclude<Block, RepeatBlock | MirrorBlock>): Mm | null {
  return block.kind !== 'free' && block.extent.kind === 'length' ? block.extent.loomLength : null;
}

type Turns = Pick<LaidBlock, 'period' | 'firstTurn' | 'turns' | 'isOpen'>;

function layTurns(
  plan: Plan,
  block: Exclude<Block, RepeatBlock | MirrorBlock>,
  spacings: readonly Mm[],
): Turns {
  switch (block.kind) {
    case 'free':
      return NOTHING_BY_EYE;
    case 'solid':
      return layTurnsOfSolid(plan, block, spacings);
    case 'alternation':
      return layTurnsOfAlternation(plan, block, spacings);
  }
}

function layTurnsOfSolid(
  plan: Plan,
  block: Extract<Block, { kind: 'solid' }>,
  spacings: readonly Mm[],
): Turns {
  const yarn = yarnIndex(plan, block.yarn);
  const picks =
    block.extent.kind === 'picks'
      ? block.extent.picks
      : picksForLength(block.extent, spacings[yarn] ?? 0);
  return { period: { yarns: [yarn], picks: [picks] }, firstTurn: 0, turns: 1 };
}

/**
 * The number of picks of a solid nearest a loom length: even unless asked, so that its shuttle
 * rests where it set out; ties go down; never less than one step.
 */
export function picksForLength(extent: LengthExtent, spacing: Mm): number {
  const parity = extent.parity ?? 'even';
  const picks = extent.loomLength / spacing;
  if (parity === 'any') return Math.max(1, roundTiesDown(picks));
  if (parity === 'even') return Math.max(2, 2 * roundTiesDown(picks / 2));
  return Math.max(1, 2 * roundTiesDown((picks - 1) / 2) + 1);
}

/** Ties go down; the slack keeps a length typed in inches from missing its tie by a rounding error. */
function roundTiesDown(x: number): number {
  return Math.ceil(x - 0.5 - 1e-9);
}

function layTurnsOfAlternation(
  plan: Plan,
  block: AlternationBlock,
  spacings: readonly Mm[],
): Turns {
  const period = periodOf(plan, block);
  const firstTurn = Math.max(0, period.yarns.indexOf(yarnIndex(plan, block.opens)));
  const extent = block.extent;
  if (extent.kind === 'turns') return { period, firstTurn, turns: extent.turns };
  const target = extent.kind === 'picks' ? extent.picks : extent.loomLength;
  const weigh = (yarn: number) => (extent.kind === 'picks' ? 1 : (spacings[yarn] ?? 0));
  const closes = block.closes === undefined ? null : yarnIndex(plan, block.closes);
  return { period, firstTurn, turns: nearestTurns(period, firstTurn, closes, target, weigh) };
}

/** One period of an alternation: `round` A B C, `there-and-back` A B C B. */
export function periodOf(plan: Plan, block: AlternationBlock): Period {
  const back = block.path === 'there-and-back' ? block.cycle.slice(1, -1).reverse() : [];
  const turns = [...block.cycle, ...back];
  return {
    yarns: turns.map((turn) => yarnIndex(plan, turn.yarn)),
    picks: turns.map((turn) => turn.picks),
  };
}

/**
 * The number of turns whose total lies nearest `target`, among those that end on `closes`
 * (any, when null). Ties go down; at least the smallest number that closes.
 */
export function nearestTurns(
  period: Period,
  firstTurn: number,
  closes: number | null,
  target: number,
  weigh: (yarn: number) => number,
): number {
  let total = 0;
  let best = 0;
  let bestMiss = Number.POSITIVE_INFINITY;
  for (let turns = 1; turns <= LIMITS.totalPicks; turns++) {
    const at = (firstTurn + turns - 1) % period.yarns.length;
    const yarn = period.yarns[at] ?? 0;
    total += (period.picks[at] ?? 0) * weigh(yarn);
    if (closes !== null && yarn !== closes) continue;
    const miss = Math.abs(total - target);
    if (miss < bestMiss - 1e-9) {
      best = turns;
      bestMiss = miss;
    }
    if (total >= target) break;
  }
  return Math.max(1, best);
}

export function spacingsIn(plan: Plan, blockSpacing: Mm | undefined): readonly Mm[] {
  return plan.yarns.map((yarn) => blockSpacing ?? yarn.pickSpacing ?? plan.weaving.pickSpacing);
}

/** Index of a yarn by its letter; a checked plan names no unknown yarn, so a miss is our own fault. */
export function yarnIndex(plan: Plan, letter: Letter): number {
  const index = plan.yarns.findIndex((yarn) => yarn.letter === letter);
  if (index < 0) throw new Error(`yarnIndex: wanted a letter of the plan, got ${letter}`);
  return index;
}

/**
 * Blocks followed by themselves backwards. The centre run is woven once when shared: every turn
 * that would melt into it is left out of the second half.
 */
export function mirrorLaid(half: readonly LaidBlock[], centre: Centre): readonly LaidBlock[] {
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
