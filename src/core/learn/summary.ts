/** What one warp taught, figure by figure: for telling while it is being measured. */
import { meanOf, spreadOf } from '../measure/spread.ts';
import { FIGURES, type Figure, type Want, type WarpFigures } from './figure.ts';
import type { KnownName } from './knowledge.ts';

export type Summary = { readonly name: KnownName } & (
  | {
      readonly kind: 'learnt';
      /** The mean over the pieces that count. */
      readonly share: number;
      /** Standard deviation between them; of one piece what its readings leave open. */
      readonly spread: number;
      readonly pieces: number;
    }
  | { readonly kind: 'not-learnt'; readonly wants: readonly Want[] }
  | { readonly kind: 'implausible'; readonly share: number }
);

/** Every figure that this warp can teach, in the order the cloth goes through its states. */
export function summariesOf({ pieces, warpTaken }: WarpFigures): readonly Summary[] {
  const counted = pieces.filter((it) => it.counts === 'in');
  const ofPieces = FIGURES.map((name) =>
    summaryOf(
      name,
      counted.map((it) => it.figures[name]),
    ),
  );
  return [...ofPieces, summaryOf('warpTaken', [warpTaken])].filter((it, _, all) => {
    // A fringe that is not twisted wants nothing, and so is not told of.
    if (it.kind === 'not-learnt' && it.wants.length === 0) return false;
    const parts = PARTS.get(it.name);
    return (
      parts === undefined || (it.kind === 'learnt' && !parts.every((one) => isLearnt(all, one)))
    );
  });
}

/** Two losses in one are told only where one of the two is not learnt by itself. */
const PARTS: ReadonlyMap<KnownName, readonly KnownName[]> = new Map([
  ['lengthLoss', ['relax', 'shrinkLength']],
  ['widthLoss', ['drawIn', 'shrinkWidth']],
]);

function isLearnt(all: readonly Summary[], name: KnownName): boolean {
  return all.some((it) => it.name === name && it.kind === 'learnt');
}

function summaryOf(name: KnownName, all: readonly Figure[]): Summary {
  const read = all.filter((it) => it.kind === 'read');
  const [first] = read;
  if (first !== undefined) {
    const shares = read.map((it) => it.share);
    const spread = spreadOf(shares) ?? first.error;
    return { name, kind: 'learnt', share: meanOf(shares), spread, pieces: read.length };
  }
  const odd = all.find((it) => it.kind === 'implausible');
  if (odd !== undefined) return { name, kind: 'implausible', share: odd.share };
  const wants = all.flatMap((it) => (it.kind === 'not-read' ? it.wants : []));
  return { name, kind: 'not-learnt', wants: [...new Set(wants)] };
}
