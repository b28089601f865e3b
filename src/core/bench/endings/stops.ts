/**
 * Stops: every place the piece may end at, from the fell on: after each turn and each block to come,
 * and beyond the plan as long as the warp may hold it. The ending edge is part of each.
 */
import type { LaidBlock } from '../../plan/blocks.ts';
import { LIMITS } from '../../plan/limits.ts';
import type { Stop, StopPlace } from './ending.ts';
import { asPass, type Motif, motifAfter } from './motif.ts';
import type { Reckoning } from './reckoning.ts';
import { stopAt, type Walk, walkOf } from './stopAt.ts';
import { turnIn, weave, weaveBlock } from './strand.ts';

/** In weaving order; none beyond a part to be woven by eye of which nothing is thrown. */
export function stopsOf(reckoning: Reckoning): readonly Stop[] {
  const walk = walkOf(reckoning);
  // Hems alone are no piece that a plan could have.
  if (walk.weft.every((it) => it.turns === 0)) return [];
  if (walk.begun !== null) return [finished(walk)];
  const planned = plannedStops(walk);
  return walk.isUnseen ? planned : [...planned, ...stopsBeyond(walk)];
}

/** With the ending hem begun the piece can only be finished. */
function finished(walk: Walk): Stop {
  const { reckoning, weft, strand, parts } = walk;
  for (const laid of weft) weaveBlock(reckoning, strand, laid);
  const end = reckoning.present.firstPick + reckoning.present.picks;
  const block = (parts.ending?.ofPiece ?? 1) - 1;
  const kind = reckoning.pick >= end ? 'here' : 'planned';
  return stopAt(walk, { kind, block }, () => weft);
}

function plannedStops(walk: Walk): readonly Stop[] {
  const { reckoning, weft, strand, parts } = walk;
  const stops: Stop[] = [];
  const lastBlock = weft.findLastIndex((it) => it.turns > 0);
  for (const [i, laid] of weft.entries()) {
    const block = parts.weft[i]?.ofPiece ?? 0;
    for (let k = 0; k < laid.turns; k++) {
      weave(reckoning, strand, turnIn(laid, k));
      const end = reckoning.present.firstPick + strand.picks;
      if (end < reckoning.pick) continue;
      const isWhole = k === laid.turns - 1;
      const place: StopPlace =
        end === reckoning.pick
          ? { kind: 'here', block }
          : !isWhole
            ? { kind: 'turn', block, turn: k + 1, of: laid.turns }
            : { kind: i === lastBlock && !walk.isUnseen ? 'planned' : 'block', block };
      stops.push(stopAt(walk, place, () => [...weft.slice(0, i), firstTurns(laid, k + 1)]));
    }
  }
  return stops;
}

/** No weaver looks further beyond a plan than this many turns (ours). */
const MOST_BEYOND = 2_000;

function stopsBeyond(walk: Walk): readonly Stop[] {
  const { reckoning, weft, strand } = walk;
  const motif = motifAfter(reckoning.plan, reckoning.present.index, weft);
  if (motif === null) return [];
  const stops: Stop[] = [];
  for (let motifs = 0; stops.length < MOST_BEYOND; motifs++) {
    let turns = 0;
    for (const [i, laid] of motif.laid.entries()) {
      for (let k = 0; k < laid.turns; k++) {
        weave(reckoning, strand, turnIn(laid, k));
        turns++;
        if (strand.picks > LIMITS.picks) return stops;
        const isWhole = i === motif.laid.length - 1 && k === laid.turns - 1;
        const done = isWhole ? { motifs: motifs + 1, turns: 0 } : { motifs, turns };
        const more = { motif, motifs, block: i, turns: k + 1 };
        const stop = stopAt(walk, { kind: 'beyond', ...done }, () => goneOn(weft, more));
        if (stop.warp.verdict === 'tooLong') return stops;
        stops.push(stop);
      }
    }
  }
  return stops;
}

interface More {
  readonly motif: Motif;
  /** Whole motifs before the one that ends inside. */
  readonly motifs: number;
  /** Block of the motif that ends after so many of its turns. */
  readonly block: number;
  readonly turns: number;
}

/** The weft with so much more of its motif. */
function goneOn(
  weft: readonly LaidBlock[],
  { motif, motifs, block, turns }: More,
): readonly LaidBlock[] {
  const cut = motif.laid
    .slice(0, block + 1)
    .map((it, i) => (i < block ? it : firstTurns(it, turns)));
  if (!motif.goesOn) {
    const whole = Array.from({ length: motifs }, (_, n) => asPass(motif.laid, n)).flat();
    return [...weft, ...whole, ...asPass(cut, motifs)];
  }
  const more = motifs * (motif.laid[0]?.turns ?? 0) + turns;
  const last = weft[weft.length - 1];
  const next = motif.laid[0];
  if (last === undefined || next === undefined) return weft;
  return last.lastTurnPicks === null
    ? [...weft.slice(0, -1), { ...last, turns: last.turns + more, lastTurnPicks: null }]
    : [...weft, { ...next, turns: more }];
}

/** A block up to the end of one of its turns. */
function firstTurns(laid: LaidBlock, turns: number): LaidBlock {
  return turns === laid.turns ? laid : { ...laid, turns, lastTurnPicks: null };
}
