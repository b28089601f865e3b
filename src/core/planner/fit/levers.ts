/**
 * Levers: the places where a warp or weft order can be made longer or shorter without becoming
 * another design. A lever moves in whole steps that keep what the order promises: the parity of a
 * solid, the yarn an alternation closes on, whole repeats.
 */
import type { Mm } from '../../measure/length.ts';
import { layWeft, picksOf } from '../../plan/blocks.ts';
import { periodOf, picksForLength, spacingsIn, yarnIndex } from '../../plan/blockTurns.ts';
import { LIMITS } from '../../plan/limits.ts';
import type { AlternationBlock, Block, Plan, SolidBlock, Stripe } from '../../plan/plan.ts';

/** A stripe of a warp order or a block of a weft order. */
export type Node = Stripe | Block;

/** What a lever changes: a field of the plan. */
export type LeverKind = 'times' | 'ends' | 'turns' | 'picks' | 'loomLength';

export interface Lever {
  readonly kind: LeverKind;
  /** Path in the plan, such as `warp.order[2].of[0]`. */
  readonly path: string;
  /** The same from the order on: [2, 0]. */
  readonly address: readonly number[];
  /** The value as the plan has it. */
  readonly from: number;
  /** The value that `from` amounts to once laid out: a length of 63.5 mm may be woven as 61. */
  readonly laid: number;
  /** What one step adds to the value. */
  readonly unit: number;
  /** What the stripe or block measures, in ends or mm on the loom, and what one step adds to it. */
  readonly size: number;
  readonly stepSize: number;
  /** Fewest and most steps, 0 being as it is. */
  readonly least: number;
  readonly most: number;
}

export interface Levers {
  readonly repeats: readonly Lever[];
  /** Solids and alternations. */
  readonly leaves: readonly Lever[];
}

/** The value of a lever so many steps on; 0 steps change nothing. */
export function valueAt(lever: Lever, steps: number): number {
  return steps === 0 ? lever.from : lever.laid + steps * lever.unit;
}

/** The order with one lever moved by whole steps; everything else is the very same object. */
export function moved<N extends Node>(
  order: readonly N[],
  lever: Lever,
  steps: number,
): readonly N[] {
  if (steps === 0) return order;
  return editAt(order, lever.address, (node) => withValue(node, lever.kind, valueAt(lever, steps)));
}

function editAt<N extends Node>(
  order: readonly N[],
  address: readonly number[],
  edit: (node: Node) => Node,
): readonly N[] {
  const [at, ...rest] = address;
  return order.map((node, i) => {
    if (i !== at) return node;
    if (rest.length === 0) return edit(node) as N;
    return 'of' in node ? { ...node, of: editAt<Node>(node.of, rest, edit) } : node;
  });
}

function withValue(node: Node, kind: LeverKind, value: number): Node {
  if (kind === 'times' || kind === 'ends') return { ...node, [kind]: value } as Node;
  if ('extent' in node) return { ...node, extent: { ...node.extent, [kind]: value } } as Node;
  return { ...node, [kind]: value } as Node;
}

/** The levers of a warp order; sizes in ends. */
export function warpLevers(order: readonly Stripe[]): Levers {
  return collect<Stripe>(order, 'warp.order', (stripe) => {
    if (stripe.kind === 'solid') {
      return { kind: 'ends', value: stripe.ends, unit: 1, size: stripe.ends, stepSize: 1 };
    }
    if (stripe.kind !== 'alternation') return null;
    const { cycle, turns } = stripe;
    const period = cycle.reduce((sum, turn) => sum + turn.ends, 0);
    const size = (turns * period) / cycle.length;
    return { kind: 'turns', value: turns, unit: cycle.length, size, stepSize: period };
  });
}

/** The levers of the weft of one piece, hems not included; sizes in mm on the loom. */
export function weftLevers(plan: Plan, piece: number): Levers {
  const order = plan.pieces[piece]?.weft ?? [];
  return collect<Block>(order, `pieces[${piece}].weft`, (block) => {
    if (block.kind === 'solid') return solidMove(plan, block);
    return block.kind === 'alternation' ? alternationMove(plan, block) : null;
  });
}

interface Move extends Pick<Lever, 'unit' | 'size' | 'stepSize'> {
  readonly kind: Exclude<LeverKind, 'times'>;
  readonly value: number;
  /** Where it is not the value itself. */
  readonly laid?: number;
}

/** A solid grows by two picks, so that its shuttle stays on its side; by one where that was asked. */
function solidMove(plan: Plan, { extent, yarn, pickSpacing }: SolidBlock): Move {
  const spacing = spacingsIn(plan, pickSpacing)[yarnIndex(plan, yarn)] ?? 0;
  if (extent.kind === 'picks') {
    const { picks } = extent;
    const size = picks * spacing;
    return { kind: 'picks', value: picks, unit: 2, size, stepSize: 2 * spacing };
  }
  const step = (extent.parity === 'any' ? 1 : 2) * spacing;
  const laid = picksForLength(extent, spacing) * spacing;
  const value = extent.loomLength;
  return { kind: 'loomLength', value, laid, unit: step, size: laid, stepSize: step };
}

/** An alternation grows by whole periods, so that it goes on closing and mirroring as it does. */
function alternationMove(plan: Plan, block: AlternationBlock): Move {
  const { extent } = block;
  const period = periodOf(plan, block);
  const spacings = spacingsIn(plan, block.pickSpacing);
  const periodPicks = period.picks.reduce((sum, picks) => sum + picks, 0);
  const stepSize = period.picks.reduce(
    (sum, picks, i) => sum + picks * (spacings[period.yarns[i] ?? 0] ?? 0),
    0,
  );
  const size = loomLengthOf({ ...plan, pieces: [] }, block);
  if (extent.kind === 'turns') {
    return { kind: 'turns', value: extent.turns, unit: period.yarns.length, size, stepSize };
  }
  if (extent.kind === 'picks') {
    return { kind: 'picks', value: extent.picks, unit: periodPicks, size, stepSize };
  }
  const value = extent.loomLength;
  return { kind: 'loomLength', value, laid: size, unit: stepSize, size, stepSize };
}

/** Loom length of one block as it is laid. */
function loomLengthOf(plan: Plan, block: Block): Mm {
  const piece = { name: '', startShed: 'up', weft: [block] } as const;
  const edge = { kind: 'plain', washedAllowance: 0 } as const;
  const alone = { ...plan, pieces: [{ ...piece, beginning: edge, ending: edge }] };
  return layWeft(alone, 0).reduce((sum, laid) => sum + laidLength(laid), 0);
}

type Laid = ReturnType<typeof layWeft>[number];

/** Loom length of a laid block, whole periods by multiplication. */
export function laidLength(laid: Laid): Mm {
  const { yarns, picks } = laid.period;
  if (yarns.length === 1) return picksOf(laid) * (laid.spacings[yarns[0] ?? 0] ?? 0);
  const lengthOf = (at: number) => (picks[at] ?? 0) * (laid.spacings[yarns[at] ?? 0] ?? 0);
  const period = yarns.reduce((sum, _, at) => sum + lengthOf(at), 0);
  let length = Math.floor(laid.turns / yarns.length) * period;
  for (let k = 0; k < laid.turns % yarns.length; k++) {
    length += lengthOf((laid.firstTurn + k) % yarns.length);
  }
  return length;
}

function collect<N extends Node>(
  order: readonly N[],
  root: string,
  moveOf: (node: N) => Move | null,
): Levers {
  const repeats: Lever[] = [];
  const leaves: Lever[] = [];
  const visit = (nodes: readonly N[], path: string, address: readonly number[]): void => {
    for (const [i, node] of nodes.entries()) {
      const at = { path: `${path}[${i}]`, address: [...address, i] };
      if (node.kind === 'repeat') repeats.push(timesLever(node.times, at));
      if ('of' in node) visit(node.of as readonly N[], `${at.path}.of`, at.address);
      const move = moveOf(node);
      if (move !== null) leaves.push(leafLever(move, at));
    }
  };
  visit(order, root, []);
  return { repeats, leaves };
}

type Place = Pick<Lever, 'path' | 'address'>;

function timesLever(times: number, at: Place): Lever {
  const sizes = { size: times, stepSize: 1, least: 1 - times, most: LIMITS.times - times };
  return { ...at, ...sizes, kind: 'times', from: times, laid: times, unit: 1 };
}

const MOST: Readonly<Record<Move['kind'], number>> = {
  ends: LIMITS.ends,
  turns: LIMITS.ends,
  picks: LIMITS.picks,
  loomLength: LIMITS.length,
};

/** Sums of exact sizes stray by less than this. */
const TOLERANCE = 1e-6;

function leafLever({ value, laid = value, ...move }: Move, at: Place): Lever {
  const { unit, kind } = move;
  // A length keeps at least a step, a count at least one.
  const smallest = kind === 'loomLength' ? Math.min(unit, laid) : 1;
  return {
    ...at,
    ...move,
    from: value,
    laid,
    least: -Math.floor((laid - smallest) / unit + TOLERANCE),
    most: Math.floor((MOST[kind] - laid) / unit + TOLERANCE),
  };
}
