/** Which block of the plan became which block of the cloth. */
import { type LaidBlock, picksOf, turnOf } from '../../plan/blocks.ts';

/** Indices of blocks that belong together; null where a block has no other. Both sides keep their order. */
export interface Pair {
  readonly planned: number | null;
  readonly woven: number | null;
}

/** Each block with the one at its own place: for a plan nobody revised. */
export function pairedByPlace(planned: number, woven: number): readonly Pair[] {
  return Array.from({ length: Math.max(planned, woven) }, (_, i) => ({
    planned: i < planned ? i : null,
    woven: i < woven ? i : null,
  }));
}

/** The pairing in order that is most alike in all, where blocks came, went or were split. */
export function pairedByLikeness(
  planned: readonly LaidBlock[],
  woven: readonly LaidBlock[],
): readonly Pair[] {
  const best = bestFrom(planned, woven);
  const at = (i: number, k: number) => best[i]?.[k] ?? 0;
  const pairs: Pair[] = [];
  for (let i = 0, k = 0; i < planned.length || k < woven.length; ) {
    const like = likeness(planned[i], woven[k]);
    if (like > 0 && at(i, k) === like + at(i + 1, k + 1)) {
      pairs.push({ planned: i++, woven: k++ });
    } else if (i < planned.length && (k >= woven.length || at(i, k) === at(i + 1, k))) {
      pairs.push({ planned: i++, woven: null });
    } else pairs.push({ planned: null, woven: k++ });
  }
  return pairs;
}

/** Likeness still to be had from each place on. */
function bestFrom(planned: readonly LaidBlock[], woven: readonly LaidBlock[]) {
  const best = Array.from({ length: planned.length + 1 }, () => new Float64Array(woven.length + 1));
  for (let i = planned.length - 1; i >= 0; i--) {
    const [row, below] = [best[i] ?? new Float64Array(), best[i + 1] ?? new Float64Array()];
    for (let k = woven.length - 1; k >= 0; k--) {
      const like = likeness(planned[i], woven[k]);
      const paired = like === 0 ? 0 : like + (below[k + 1] ?? 0);
      row[k] = Math.max(paired, below[k] ?? 0, row[k + 1] ?? 0);
    }
  }
  return best;
}

/** From 0 to 2: blocks of one kind and the same yarns are alike, the more so the nearer in picks. */
function likeness(planned: LaidBlock | undefined, woven: LaidBlock | undefined): number {
  if (planned === undefined || woven === undefined) return 0;
  if (isHem(planned) !== isHem(woven) || yarnsOf(planned) !== yarnsOf(woven)) return 0;
  const [a, b] = [picksOf(planned), picksOf(woven)];
  return 1 + Math.min(a, b) / Math.max(1, a, b);
}

function isHem({ block }: LaidBlock): boolean {
  return block === null;
}

function yarnsOf(laid: LaidBlock): string {
  const turns = Math.min(laid.turns, laid.period.yarns.length);
  const yarns = Array.from({ length: turns }, (_, k) => turnOf(laid, k).yarn);
  return [...new Set(yarns)].sort((a, b) => a - b).join();
}
