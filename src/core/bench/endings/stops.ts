/**
 * Stops: every place the piece may end at, from the fell on: after each turn and each block to come,
 * and beyond the plan as long as the warp may hold it. The ending edge is part of each.
 */
import type { Mm } from '../../measure/length.ts';
import { type LaidBlock, turnOf } from '../../plan/blocks.ts';
import { LIMITS } from '../../plan/limits.ts';
import type { Piece } from '../../plan/plan.ts';
import type { Interval } from './context.ts';
import type { Revision, Stop, StopPlace } from './ending.ts';
import { type Hem, hemBegun, hemToCome } from './hems.ts';
import { type LaterPieces, laterPieces } from './later.ts';
import { asPass, type Motif, motifAfter } from './motif.ts';
import {
  pieceEnding,
  type Reckoning,
  type StateLines,
  stateLines,
  toWeave,
  unwovenAfter,
  warpAfter,
} from './reckoning.ts';
import {
  newStrand,
  plus,
  readingOf,
  readingWith,
  type Strand,
  type Turn,
  turnIn,
  weave,
  weaveBlock,
} from './strand.ts';
import { edgesOf, pieceOf } from './woven/asWoven.ts';
import { type PieceParts, partsOf } from './woven/parts.ts';

/** In weaving order. */
export function stopsOf(reckoning: Reckoning): readonly Stop[] {
  const walk = walkOf(reckoning);
  if (walk.begun !== null) return [finished(walk)];
  const planned = plannedStops(walk);
  return [...planned, ...stopsBeyond(walk)];
}

/** The piece walked turn by turn; one strand for all stops. */
interface Walk {
  readonly reckoning: Reckoning;
  readonly piece: Piece;
  readonly parts: PieceParts;
  readonly weft: readonly LaidBlock[];
  /** The ending hem, where it is begun. */
  readonly begun: Hem | null;
  readonly strand: Strand;
  readonly later: LaterPieces;
  /** What is left unwoven after this piece, as weavable loom length. */
  readonly unwoven: Mm;
  /** Endings met so far, by the yarn of the last turn. */
  readonly hems: Map<number, HemOfStop>;
}

interface HemOfStop {
  readonly hem: Hem;
  readonly lines: StateLines;
}

function walkOf(reckoning: Reckoning): Walk {
  const { course, plan, present } = reckoning;
  const piece = plan.pieces[present.index];
  if (piece === undefined) throw new Error(`stopsOf: got piece ${present.index}`);
  const parts = partsOf(course, present.index);
  const strand = newStrand(reckoning, present.index);
  if (parts.beginning !== null) weaveBlock(reckoning, strand, parts.beginning.laid);
  return {
    reckoning,
    piece,
    parts,
    weft: parts.weft.map((block) => block.laid),
    begun: hemBegun(reckoning, present.index),
    strand,
    later: laterPieces(reckoning),
    unwoven: unwovenAfter(reckoning, present.index, plan.pieces.length),
    hems: new Map(),
  };
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
            : { kind: i === lastBlock ? 'planned' : 'block', block };
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
  const isWhole = last.lastTurnPicks === null || isFull(last);
  return isWhole
    ? [...weft.slice(0, -1), { ...last, turns: last.turns + more, lastTurnPicks: null }]
    : [...weft, { ...next, turns: more }];
}

function isFull(laid: LaidBlock): boolean {
  const k = laid.turns - 1;
  return turnOf(laid, k).picks === turnOf({ ...laid, lastTurnPicks: null }, k).picks;
}

/** A block up to the end of one of its turns. */
function firstTurns(laid: LaidBlock, turns: number): LaidBlock {
  return turns === laid.turns ? laid : { ...laid, turns, lastTurnPicks: null };
}

/** The stop where the strand now is. */
function stopAt(walk: Walk, place: StopPlace, weftUpTo: () => readonly LaidBlock[]): Stop {
  const { reckoning, strand } = walk;
  const { index, firstPick } = reckoning.present;
  const { hem, lines } = hemHere(walk);
  const { turn } = hem;
  const weftEnd = firstPick + strand.picks;
  const woven = Math.max(0, Math.min(turn.picks, reckoning.pick - weftEnd));
  const ahead = plus(strand.ahead, turn.yarn, (turn.picks - woven) * turn.spacing);
  const length = lengthOf(walk, turn, ahead);
  const ending = pieceEnding(reckoning, {
    piece: index,
    lines,
    length,
    hemPicks: turn.picks,
    allPicks: strand.picks + turn.picks,
    toWeave: plus(strand.toWeave, turn.yarn, turn.picks - woven),
    reads: turn.picks === 0 ? readingOf(strand) : readingWith(reckoning, strand, turn),
  });
  const { warp, warpAfterAll } = warpsAfter(walk, length, ahead);
  const revision = () => revisionOf(walk, weftUpTo(), hem);
  // Field by field: spreading thousands of stops costs more than all their arithmetic.
  return {
    piece: ending.piece,
    picks: ending.picks,
    hemPicks: ending.hemPicks,
    allPicks: ending.allPicks,
    lengths: ending.lengths,
    reads: ending.reads,
    yarns: ending.yarns,
    minutes: ending.minutes,
    fromWish: ending.fromWish,
    place,
    weftEnd,
    warp,
    warpAfterAll,
    revision,
  };
}

/** The ending hem where the strand now is. */
function hemHere({ reckoning, piece, parts, weft, strand, begun, hems }: Walk): HemOfStop {
  const { of } = strand.yarns;
  const last = of[of.length - 1] ?? 0;
  const known = hems.get(last);
  if (known !== undefined) return known;
  const hem = begun ?? hemToCome(reckoning, reckoning.present.index, last);
  const laid = { beginning: parts.beginning?.laid ?? null, weft, ending: hem.laid };
  const { beginning, ending } = edgesOf(reckoning.plan, piece, laid);
  const edges = { beginning: beginning.edge, ending: ending.edge };
  const found = { hem, lines: stateLines(reckoning.plan, { ...piece, ...edges }) };
  hems.set(last, found);
  return found;
}

/** Length of the piece with its ending hem: asked for where the plan ends, else as believed of so much more cloth. */
function lengthOf({ reckoning, strand, parts }: Walk, hem: Turn, ahead: readonly Mm[]): Interval {
  const { present, context, beliefs } = reckoning;
  const planned = parts.ending?.picks ?? 0;
  const isPlanned = strand.picks + planned === present.picks && hem.picks === planned;
  if (isPlanned) return context.believe(present.firstPick + present.picks);
  return beliefs.ahead(ahead);
}

function warpsAfter(
  { reckoning, later, unwoven }: Walk,
  length: Interval,
  ahead: readonly Mm[],
): Pick<Stop, 'warp' | 'warpAfterAll'> {
  const { here, ahead: believed } = reckoning.beliefs;
  const warp = warpAfter(reckoning, toWeave(here, length), unwoven);
  if (later.pieces.length === 0) return { warp, warpAfterAll: warp };
  const all = believed(ahead.map((mm, yarn) => mm + (later.ahead[yarn] ?? 0)));
  const warpAfterAll = warpAfter(reckoning, toWeave(here, all), unwoven + later.unwoven);
  return { warp, warpAfterAll };
}

function revisionOf(walk: Walk, weft: readonly LaidBlock[], { laid: ending }: Hem): Revision {
  const { reckoning, piece, parts, later } = walk;
  const beginning = parts.beginning?.laid ?? null;
  const revised = pieceOf(reckoning.plan, piece, { beginning, weft, ending });
  if (revised === null) throw new Error('revisionOf: wanted a weft with picks');
  return { from: reckoning.present.index, pieces: [revised, ...later.pieces] };
}
