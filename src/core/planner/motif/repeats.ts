/** A motif through a whole piece, and a plan that weaves it. */
import { loomLengthFor } from '../../measure/clothState.ts';
import { MM_PER_INCH, type Mm, type Units } from '../../measure/length.ts';
import { totalOf } from '../../measure/runs.ts';
import { sharesOf, warpEnds } from '../../plan/geometry.ts';
import { LIMITS } from '../../plan/limits.ts';
import { type Motif, motifLength, planOfMotif } from '../../plan/motif.ts';
import type { Block, LoomKind, Plan, SolidBlock } from '../../plan/plan.ts';
import { newPlan } from '../newPlan.ts';
import { stripesOfMotif } from './changes.ts';

/** `asBegun`: its first stripe once more at the end. `open`: the last motif is the end. */
export type RepeatEnd = 'asBegun' | 'open';

export interface MotifRepeats {
  readonly times: number;
  readonly blocks: readonly Block[];
  readonly loomLength: Mm;
}

/** As many whole motifs as a loom length holds; null where it does not hold one. */
export function repeatsWithin(motif: Motif, loomLength: Mm, end: RepeatEnd): MotifRepeats | null {
  const once = motifLength(motif);
  const closing = end === 'asBegun' ? firstStripe(motif) : null;
  const closingLength = closing === null ? 0 : closing.length;
  const times = Math.min(LIMITS.times, Math.floor((loomLength - closingLength) / once + 1e-9));
  if (times < 1) return null;
  const body: readonly Block[] =
    times === 1 ? motif.blocks : [{ kind: 'repeat', name: motif.name, times, of: motif.blocks }];
  return {
    times,
    blocks: [...body, ...(closing === null ? [] : [closing.block])],
    loomLength: times * once + closingLength,
  };
}

/** A motif so many times, under its name. */
export function inARow({ name, blocks }: Motif, times: number): readonly Block[] {
  const [only, ...others] = blocks;
  if (only !== undefined && others.length === 0 && times === 1) return [{ ...only, name }];
  return [{ kind: 'repeat', name, times, of: blocks }];
}

function firstStripe(motif: Motif): { readonly block: SolidBlock; readonly length: Mm } {
  const [first] = stripesOfMotif(motif);
  if (first === undefined) throw new Error('firstStripe: got a motif without picks');
  const yarn = motif.yarns.find((it) => it.letter === first.of);
  const extent = { kind: 'picks', picks: first.count } as const;
  const length = first.count * (yarn?.pickSpacing ?? 0);
  return { block: { kind: 'solid', yarn: first.of, extent }, length };
}

/**
 * A plan of one piece with the motif through it, on its own warp at its own sett; edges, allowances
 * and piece length are those a new plan begins with. It passes `checkPlan`.
 */
export function planFromMotif(motif: Motif, units: Units, loomKind: LoomKind): Plan {
  const frame = newPlan(units, loomKind);
  const [piece] = frame.pieces;
  if (piece === undefined) throw new Error('planFromMotif: got a new plan without a piece');
  const loomLength = loomLengthFor(piece.wish?.length ?? 0, sharesOf(frame));
  const repeats = repeatsWithin(motif, loomLength, 'asBegun');
  return {
    ...frame,
    name: motif.name,
    loom: loomFor(frame, motif, units),
    yarns: motif.yarns,
    warp: { ...frame.warp, order: motif.warp },
    weaving: { ...frame.weaving, pickSpacing: usualSpacing(motif) },
    pieces: [{ ...piece, weft: repeats?.blocks ?? motif.blocks }],
  };
}

/** The reed it was woven in, to a hundredth of a dent, and a loom wide enough. */
function loomFor({ loom }: Plan, motif: Motif, units: Units): Plan['loom'] {
  const per = units === 'inch' ? 'inch' : '10cm';
  const count = Math.round(motif.endsPerMm * (per === 'inch' ? MM_PER_INCH : 100) * 100) / 100;
  const width = warpEnds(planOfMotif(motif)) / motif.endsPerMm;
  const weavingWidth = Math.max(loom.weavingWidth, Math.ceil(width * 1.02));
  return { ...loom, dents: { count, per }, endsPerDent: 1, weavingWidth };
}

/** The spacing of most picks. */
function usualSpacing(motif: Motif): Mm {
  const stripes = stripesOfMotif(motif);
  const picksOf = (letter: string) => totalOf(stripes.filter((run) => run.of === letter));
  const [first, ...others] = motif.yarns;
  const most = others.reduce(
    (best, yarn) =>
      best === undefined || picksOf(yarn.letter) > picksOf(best.letter) ? yarn : best,
    first,
  );
  return most?.pickSpacing ?? 1;
}
