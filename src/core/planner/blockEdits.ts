/** Edits of a weft block that keep its parts in step with each other. */
import type { Mm } from '../measure/length.ts';
import type { AlternationBlock, Letter, SolidBlock } from '../plan/plan.ts';
import { type Beat, blockSize } from './orderBands.ts';

type Cycle = AlternationBlock['cycle'];
/** How far a block goes. */
export type Extent = AlternationBlock['extent'];

/**
 * An alternation with another cycle. A yarn it opened or closed on and that is gone gives way to the
 * one in its place; with fewer than three turns there and back is no path.
 */
export function withCycle(block: AlternationBlock, cycle: Cycle): AlternationBlock {
  const instead = (letter: Letter) => {
    if (cycle.some((turn) => turn.yarn === letter)) return letter;
    const at = block.cycle.findIndex((turn) => turn.yarn === letter);
    return (cycle[at] ?? cycle[0])?.yarn ?? letter;
  };
  const path = cycle.length < 3 ? 'round' : block.path;
  const { closes } = block;
  return {
    ...block,
    cycle,
    path,
    opens: instead(block.opens),
    ...(closes === undefined ? {} : { closes: instead(closes) }),
  };
}

/** An alternation that must close on a yarn, or may close on any when null. */
export function closingOn(block: AlternationBlock, closes: Letter | null): AlternationBlock {
  const { closes: _old, ...open } = block;
  return closes === null ? open : { ...open, closes };
}

/** Steps that keep what fits fitting: whole rounds where it must close, else whole turns. */
export function stepsOf(block: AlternationBlock): {
  readonly turns: number;
  readonly picks: number;
} {
  const back = block.path === 'there-and-back' ? block.cycle.slice(1, -1) : [];
  const period = [...block.cycle, ...back];
  const picks = period.reduce((sum, turn) => sum + turn.picks, 0);
  if (block.closes !== undefined) return { turns: period.length, picks };
  const [first] = period;
  const isEven = first !== undefined && period.every((turn) => turn.picks === first.picks);
  return { turns: 1, picks: isEven ? first.picks : picks };
}

/**
 * How far a block goes, said in another way: what it comes to at the planned beat. A length is
 * rounded to `step`, never to nothing; a block that is none yet becomes a single pick, turn or step.
 */
export function extentAs<K extends Extent['kind']>(
  kind: K,
  block: SolidBlock | AlternationBlock,
  beat: Beat,
  step: Mm,
): Extract<Extent, { readonly kind: K }> {
  // The union and its case for K are the same thing; the compiler cannot tell.
  return extentOfKind(kind, block, beat, step) as Extract<Extent, { readonly kind: K }>;
}

function extentOfKind(
  kind: Extent['kind'],
  block: SolidBlock | AlternationBlock,
  beat: Beat,
  step: Mm,
): Extent {
  if (block.extent.kind === kind) return block.extent;
  const size = blockSize(block, beat) ?? { turns: 1, picks: 1, loomLength: step };
  switch (kind) {
    case 'picks':
      return { kind, picks: size.picks };
    case 'turns':
      return { kind, turns: size.turns };
    case 'length':
      return { kind, loomLength: Math.max(1, Math.round(size.loomLength / step)) * step };
  }
}
