/** One stop: what the piece comes to where it has been followed to. */
import type { Mm } from '../../measure/length.ts';
import type { LaidBlock } from '../../plan/blocks.ts';
import type { Piece } from '../../plan/plan.ts';
import type { Interval } from './context.ts';
import type { Revision, Stop, StopPlace } from './ending.ts';
import { type Hem, hemBegun, hemToCome } from './hems.ts';
import { type LaterPieces, laterPieces } from './later.ts';
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
  weaveBlock,
} from './strand.ts';
import { pieceOf } from './woven/asWoven.ts';
import { type PieceParts, partsOf, unseenFrom } from './woven/parts.ts';

/** The piece walked turn by turn; one strand for all stops. */
export interface Walk {
  readonly reckoning: Reckoning;
  readonly piece: Piece;
  readonly parts: PieceParts;
  /** As far as anybody knows: not from a part on that is to be woven by eye. */
  readonly weft: readonly LaidBlock[];
  readonly isUnseen: boolean;
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

/**
 * The walk before its first turn of weft: only the beginning hem is followed. Throws where the plan
 * lacks the present piece.
 */
export function walkOf(reckoning: Reckoning): Walk {
  const { course, plan, present } = reckoning;
  const piece = plan.pieces[present.index];
  if (piece === undefined)
    throw new Error(`walkOf: wanted a piece of the plan, got ${present.index}`);
  const parts = partsOf(course, present.index);
  const strand = newStrand(reckoning, present.index);
  if (parts.beginning !== null) weaveBlock(reckoning, strand, parts.beginning.laid);
  const unseen = unseenFrom(course, parts);
  const weft = parts.weft.map((block) => block.laid);
  return {
    reckoning,
    piece,
    parts,
    weft: unseen === null ? weft : weft.slice(0, unseen),
    isUnseen: unseen !== null,
    begun: hemBegun(reckoning, present.index),
    strand,
    later: laterPieces(reckoning),
    unwoven: unwovenAfter(reckoning, present.index, plan.pieces.length),
    hems: new Map(),
  };
}

/** The stop where the strand now is. */
export function stopAt(walk: Walk, place: StopPlace, weftUpTo: () => readonly LaidBlock[]): Stop {
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
  const found = { hem, lines: stateLines(reckoning.plan, piece, laid) };
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
