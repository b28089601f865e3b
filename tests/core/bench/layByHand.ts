/**
 * The weft of a plan laid out the slow way, from the design's words alone and with no code of the
 * core: one object a turn, and lengths found by trying one number after the other.
 */
import type {
  AlternationBlock,
  Block,
  Edge,
  Letter,
  Plan,
  SolidBlock,
} from '../../../src/core/plan/plan.ts';

export interface HandTurn {
  readonly yarn: Letter;
  readonly picks: number;
}

export interface HandBlock {
  readonly turns: readonly HandTurn[];
  readonly plan: SolidBlock | AlternationBlock | null;
  readonly spacing: (yarn: Letter) => number;
}

export interface HandPick {
  readonly yarn: Letter;
  readonly spacing: number;
  readonly block: number;
  readonly turn: number;
  readonly ofTurn: number;
  readonly turnPicks: number;
}

/** Blocks of a piece, hems included, in weaving order. */
export function blocksByHand(plan: Plan, piece: number): readonly HandBlock[] {
  const it = plan.pieces[piece];
  if (it === undefined) throw new Error('no such piece');
  const weft = it.weft.flatMap((block) => lay(plan, block));
  const first = weft[0]?.turns[0]?.yarn ?? '';
  const last = weft.at(-1)?.turns.at(-1)?.yarn ?? '';
  return [...hem(plan, it.beginning, first), ...weft, ...hem(plan, it.ending, last)];
}

/** One entry a pick. */
export function picksByHand(blocks: readonly HandBlock[]): readonly HandPick[] {
  return blocks.flatMap(({ turns, spacing }, block) =>
    turns.flatMap(({ yarn, picks }, turn) =>
      Array.from({ length: picks }, (_, ofTurn) => ({
        yarn,
        spacing: spacing(yarn),
        block,
        turn,
        ofTurn,
        turnPicks: picks,
      })),
    ),
  );
}

function lay(plan: Plan, block: Block): readonly HandBlock[] {
  switch (block.kind) {
    case 'repeat':
      return Array.from({ length: block.times }, () =>
        block.of.flatMap((it) => lay(plan, it)),
      ).flat();
    case 'mirror': {
      const half = block.of.flatMap((it) => lay(plan, it));
      const back = half.toReversed().map((it) => ({ ...it, turns: it.turns.toReversed() }));
      return [...half, ...(block.centre === 'shared' ? withoutCentre(back) : back)];
    }
    case 'free':
      throw new Error('by hand nothing is laid that was not planned');
    case 'solid':
    case 'alternation': {
      const spacing = spacingOf(plan, block.pickSpacing);
      const turns =
        block.kind === 'solid' ? [solidTurn(block, spacing)] : alternationTurns(block, spacing);
      return [{ turns, plan: block, spacing }];
    }
  }
}

function spacingOf(plan: Plan, ofBlock: number | undefined) {
  return (letter: Letter) =>
    ofBlock ??
    plan.yarns.find((yarn) => yarn.letter === letter)?.pickSpacing ??
    plan.weaving.pickSpacing;
}

function withoutCentre(back: readonly HandBlock[]): readonly HandBlock[] {
  const centre = back[0]?.turns[0]?.yarn;
  let inCentre = true;
  const kept = back.map((block) => {
    const turns = block.turns.filter((turn) => {
      inCentre = inCentre && turn.yarn === centre;
      return !inCentre;
    });
    return { ...block, turns };
  });
  return kept.filter((block) => block.turns.length > 0);
}

/** The candidate whose size misses least; of two that miss as much the first. */
function nearest<T>(candidates: readonly T[], size: (it: T) => number, target: number): T {
  let best: T | undefined;
  for (const it of candidates) {
    const miss = Math.abs(size(it) - target);
    if (best === undefined || miss < Math.abs(size(best) - target) - 1e-9) best = it;
  }
  if (best === undefined) throw new Error('no candidate');
  return best;
}

function solidTurn(block: SolidBlock, spacing: (yarn: Letter) => number): HandTurn {
  const { extent, yarn } = block;
  if (extent.kind === 'picks') return { yarn, picks: extent.picks };
  const parity = extent.parity ?? 'even';
  const most = Math.ceil(extent.loomLength / spacing(yarn)) + 3;
  const wanted = Array.from({ length: most }, (_, i) => i + 1).filter(
    (n) => parity === 'any' || (n % 2 === 0) === (parity === 'even'),
  );
  return { yarn, picks: nearest(wanted, (n) => n * spacing(yarn), extent.loomLength) };
}

function alternationTurns(block: AlternationBlock, spacing: (yarn: Letter) => number) {
  const { extent } = block;
  const size = (turns: readonly HandTurn[]) => {
    if (extent.kind === 'turns') return turns.length;
    const each = (turn: HandTurn) =>
      turn.picks * (extent.kind === 'picks' ? 1 : spacing(turn.yarn));
    return turns.reduce((sum, turn) => sum + each(turn), 0);
  };
  const target =
    extent.kind === 'turns'
      ? extent.turns
      : extent.kind === 'picks'
        ? extent.picks
        : extent.loomLength;
  const candidates: HandTurn[][] = [];
  for (let n = 1; candidates.length === 0 || size(candidates.at(-1) ?? []) < target; n++) {
    const turns = firstTurns(block, n);
    if (block.closes === undefined || turns.at(-1)?.yarn === block.closes) candidates.push(turns);
  }
  return nearest(candidates, size, target);
}

export function firstTurns(block: Omit<AlternationBlock, 'extent'>, n: number): HandTurn[] {
  const turns: HandTurn[] = [];
  let at = block.cycle.findIndex((turn) => turn.yarn === block.opens);
  let step = 1;
  while (turns.length < n) {
    const turn = block.cycle[at];
    if (turn !== undefined) turns.push(turn);
    if (block.path === 'round') at = (at + 1) % block.cycle.length;
    else {
      if (at === block.cycle.length - 1) step = -1;
      if (at === 0) step = 1;
      at += step;
    }
  }
  return turns;
}

function hem(plan: Plan, edge: Edge, neighbour: Letter): readonly HandBlock[] {
  if (edge.kind === 'hemstitch' || edge.washedAllowance === 0) return [];
  const { relax, shrinkLength } = plan.allowances;
  const loomLength = edge.washedAllowance / (1 - shrinkLength.share) / (1 - relax.share);
  const yarn = edge.yarn ?? neighbour;
  const spacing = spacingOf(plan, undefined);
  const block: SolidBlock = { kind: 'solid', yarn, extent: { kind: 'length', loomLength } };
  return [{ turns: [solidTurn(block, spacing)], plan: null, spacing }];
}
