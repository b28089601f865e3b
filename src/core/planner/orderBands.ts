/** What an order will look like: the bands that are seen once neighbours of one yarn have melted together. */
import type { Mm } from '../measure/length.ts';
import { mergeRuns } from '../measure/runs.ts';
import { type LaidBlock, layWeft, picksOf, turnOf } from '../plan/blocks.ts';
import { countEnds, countLaidBlocks, countPicks } from '../plan/count.ts';
import { warpRuns } from '../plan/geometry.ts';
import { LIMITS } from '../plan/limits.ts';
import type { AlternationBlock, Block, Letter, Piece, Plan, Stripe, Yarn } from '../plan/plan.ts';
import { newPlan } from './newPlan.ts';

export interface Band {
  readonly yarn: Letter;
  /** Ends of a warp, picks of a weft. */
  readonly threads: number;
  /** How much room it takes among the others: ends of a warp, loom length of a weft. */
  readonly extent: number;
}

/** What is woven with: the yarns of the plan and its planned distance from pick to pick. */
export interface Beat {
  readonly yarns: readonly Yarn[];
  readonly pickSpacing: Mm;
}

/** Bands of a warp order; null while it is no order yet (an odd half end, say) or far too large. */
export function warpBands(stripes: readonly Stripe[]): readonly Band[] | null {
  if (!stripes.every(isSoundStripe) || countEnds(stripes) > 2 * LIMITS.ends) return null;
  return mergeRuns(warpRuns(stripes)).map(({ of, count }) => ({
    yarn: of,
    threads: count,
    extent: count,
  }));
}

/** Bands of a weft order at the planned beat; null while it is no order yet or far too large. */
export function weftBands(blocks: readonly Block[], beat: Beat): readonly Band[] | null {
  const plan = planOf(blocks, beat);
  if (plan === null) return null;
  const bands: Band[] = [];
  for (const laid of layWeft(plan, 0)) {
    // What will be woven by eye nobody has seen yet.
    if (laid.isOpen) continue;
    for (let k = 0; k < laid.turns; k++) addTurn(bands, plan, laid, k);
  }
  return bands;
}

export interface BlockSize {
  readonly turns: number;
  readonly picks: number;
  readonly loomLength: Mm;
}

/** What a block of one colour or an alternation comes to at the planned beat; null where it is no block yet. */
export function blockSize(block: Block, beat: Beat): BlockSize | null {
  const plan = planOf([block], beat);
  const [laid] = plan === null ? [] : layWeft(plan, 0);
  if (laid === undefined) return null;
  let loomLength = 0;
  for (let k = 0; k < laid.turns; k++) loomLength += turnLength(laid, k);
  return { turns: laid.turns, picks: picksOf(laid), loomLength };
}

/** The whole turns nearest to an alternation's own that end on its closing yarn; its own if they do. */
export function nearestClosing(block: AlternationBlock, beat: Beat): BlockSize | null {
  const picks = blockSize(block, beat)?.picks;
  return picks === undefined
    ? null
    : blockSize({ ...block, extent: { kind: 'picks', picks } }, beat);
}

function addTurn(bands: Band[], plan: Plan, laid: LaidBlock, k: number): void {
  const turn = turnOf(laid, k);
  const yarn = plan.yarns[turn.yarn]?.letter ?? '';
  const last = bands.at(-1);
  const extent = turnLength(laid, k);
  if (last?.yarn !== yarn) bands.push({ yarn, threads: turn.picks, extent });
  else {
    const threads = last.threads + turn.picks;
    bands[bands.length - 1] = { yarn, threads, extent: last.extent + extent };
  }
}

function turnLength(laid: LaidBlock, k: number): Mm {
  const { yarn, picks } = turnOf(laid, k);
  return picks * (laid.spacings[yarn] ?? 0);
}

/** A plan of one piece of these blocks, to lay them out as the bench does. */
function planOf(blocks: readonly Block[], beat: Beat): Plan | null {
  if (!blocks.every(isSoundBlock) || countLaidBlocks(blocks) > LIMITS.laidBlocks) return null;
  const frame = newPlan('metric', 'rigid-heddle');
  const known = new Set(beat.yarns.map((yarn) => yarn.letter));
  const standIns = [...lettersIn(blocks)].filter((letter) => !known.has(letter));
  const yarns = [...beat.yarns, ...standIns.map((letter) => standIn(letter, frame))];
  const edge = { kind: 'plain', washedAllowance: 0 } as const;
  const weft = blocks.map(withKnownClosing);
  const piece: Piece = { name: '', startShed: 'up', beginning: edge, ending: edge, weft };
  const weaving = { ...frame.weaving, pickSpacing: beat.pickSpacing };
  const plan: Plan = { ...frame, yarns, weaving, pieces: [piece] };
  // A bound of the picks, never less than they are; NaN where a spacing is none.
  return countPicks(plan, piece) <= 2 * LIMITS.picks ? plan : null;
}

function standIn(letter: Letter, frame: Plan): Yarn {
  const [yarn] = frame.yarns;
  if (yarn === undefined) throw new Error('standIn: got a new plan without yarns, wanted one');
  return { ...yarn, letter };
}

/** While a cycle is edited its closing yarn may be gone from it; then it closes where it likes. */
function withKnownClosing(block: Block): Block {
  if (block.kind === 'repeat' || block.kind === 'mirror') {
    return { ...block, of: block.of.map(withKnownClosing) };
  }
  if (block.kind !== 'alternation' || block.closes === undefined) return block;
  const { closes, ...open } = block;
  return block.cycle.some((turn) => turn.yarn === closes) ? block : open;
}

function lettersIn(blocks: readonly Block[]): ReadonlySet<Letter> {
  return new Set(blocks.flatMap(lettersOf));
}

function lettersOf(block: Block): readonly Letter[] {
  switch (block.kind) {
    case 'solid':
      return [block.yarn];
    case 'alternation':
      return [block.opens, ...block.cycle.map((turn) => turn.yarn)];
    case 'free':
      return [];
    case 'repeat':
    case 'mirror':
      return block.of.flatMap(lettersOf);
  }
}

function isSoundStripe(stripe: Stripe): boolean {
  switch (stripe.kind) {
    case 'solid':
      return isCount(stripe.ends);
    case 'alternation':
      return isCount(stripe.turns) && stripe.cycle.every((turn) => isCount(turn.ends));
    case 'repeat':
      return isCount(stripe.times) && stripe.of.every(isSoundStripe);
    case 'mirror':
      return stripe.of.every(isSoundStripe);
  }
}

function isSoundBlock(block: Block): boolean {
  if (block.kind === 'repeat') return isCount(block.times) && block.of.every(isSoundBlock);
  if (block.kind === 'mirror') return block.of.every(isSoundBlock);
  const { pickSpacing } = block;
  if (pickSpacing !== undefined && !(pickSpacing > 0)) return false;
  if (block.kind === 'free') return block.loomLength === undefined || block.loomLength > 0;
  if (!isSoundExtent(block.extent)) return false;
  if (block.kind === 'solid') return true;
  return block.cycle.length > 0 && block.cycle.every((turn) => isCount(turn.picks));
}

function isSoundExtent(extent: AlternationBlock['extent']): boolean {
  switch (extent.kind) {
    case 'picks':
      return isCount(extent.picks);
    case 'turns':
      return isCount(extent.turns);
    case 'length':
      return extent.loomLength > 0;
  }
}

function isCount(count: number): boolean {
  return Number.isSafeInteger(count) && count >= 1;
}
