/** What a trial comes to, piece by piece, as a fit that can be taken. */
import type { Mm } from '../../../measure/length.ts';
import { picksOf } from '../../../plan/blocks.ts';
import type { Piece } from '../../../plan/plan.ts';
import type { Interval } from '../context.ts';
import type { Aim, BlockChange, Fit, PieceEnding, Revision, WarpAfter } from '../ending.ts';
import { asItStands } from '../later.ts';
import { pieceEnding, stateLines, toWeave, unwovenAfter, warpAfter } from '../reckoning.ts';
import { readingOf, type Strand } from '../strand.ts';
import { type LaidPiece, pieceOf } from '../woven/asWoven.ts';
import { type Board, type BoardPiece, hemAfter, strandWith } from './board.ts';
import type { Item } from './items.ts';
import type { Trial } from './trials.ts';

/** A trial followed to the end of every piece. */
export interface Outcome {
  readonly trial: Trial;
  /** The pieces there are, as they come out. */
  readonly kept: readonly KeptPiece[];
  readonly warpAfterAll: WarpAfter;
  /** Whether every piece that changes, or else every one there is, reads the same from both ends. */
  readonly mirrored: boolean;
}

interface KeptPiece {
  readonly it: BoardPiece;
  /** Its weft, where it is another. */
  readonly weft: readonly Item[] | null;
  readonly strand: Strand;
}

/** A trial followed to the end of every piece it keeps, with the warp left after them all. */
export function outcomeOf(board: Board, trial: Trial): Outcome {
  const { reckoning, pieces } = board;
  const kept = pieces.slice(0, pieces.length - trial.dropped).map((it): KeptPiece => {
    const weft = trial.wefts.get(it.index) ?? null;
    return { it, weft, strand: weft === null ? it.strand : strandWith(board, it, weft) };
  });
  const judged = kept.some((it) => it.weft !== null) ? kept.filter((it) => it.weft) : kept;
  const mirrored = judged.every(({ strand }) => readingOf(strand).same !== 'no');
  const ahead = reckoning.plan.yarns.map((_, yarn) =>
    kept.reduce((sum, { strand }) => sum + (strand.ahead[yarn] ?? 0), 0),
  );
  return { trial, kept, mirrored, warpAfterAll: warpAfterPieces(board, trial.dropped, ahead) };
}

/** The warp once all pieces but the last few are woven, with so much planned weft still ahead. */
export function warpAfterPieces(
  { reckoning, pieces }: Board,
  dropped: number,
  ahead: readonly Mm[],
): WarpAfter {
  const { beliefs, plan } = reckoning;
  const kept = pieces.slice(0, pieces.length - dropped);
  const unwoven = kept.reduce(
    (sum, it) => sum + unwovenAfter(reckoning, it.index, plan.pieces.length - dropped),
    0,
  );
  return warpAfter(reckoning, toWeave(beliefs.here, beliefs.ahead(ahead)), unwoven);
}

/** Names the cloth as it is seen: two trials of one name are one. */
export function clothOf({ kept, trial }: Outcome): string {
  const stripes = kept
    .filter((it) => it.weft !== null)
    .map(({ it, strand: { yarns } }) => `${it.index}:${yarns.of.join()}/${yarns.picks.join()}`);
  return [...stripes, trial.dropped].join(' ');
}

/** The outcome as a fit towards an aim; null where a piece that changes would have no weft. */
export function fitOf(board: Board, aim: Aim, outcome: Outcome): Fit | null {
  const { trial, kept, warpAfterAll, mirrored } = outcome;
  const revision = revisionOf(board, outcome);
  if (revision === null) return null;
  const { way, motifs, matched, dropped, cost } = trial;
  const changes = kept.flatMap(({ it, weft }) => (weft === null ? [] : changesIn(it, weft)));
  const pieces = kept.map((it) => endingOf(board, it));
  const told = { aim, way, motifs, matched, dropped, changes, cost, mirrored };
  return { ...told, pieces, warpAfterAll, revision: () => revision };
}

/** From the first piece that is another; those before it keep what was set by hand in them. */
function revisionOf(board: Board, { kept }: Outcome): Revision | null {
  const { reckoning, pieces } = board;
  const first = kept.findIndex((it) => it.weft !== null);
  const from = first < 0 ? kept.length : first;
  const revised = kept.slice(from).flatMap(({ it, weft }): readonly Piece[] => {
    if (weft === null) return [asItStands(reckoning.course, it.index)];
    const piece = pieceOf(reckoning.plan, it.piece, laidPiece(board, it, weft));
    return piece === null ? [] : [piece];
  });
  if (revised.length < kept.length - from) return null;
  return { from: (pieces[0]?.index ?? 0) + from, pieces: revised };
}

/** A piece with such a weft between its hems, the ending one null where its edge is to lay it. */
export function laidPiece(board: Board, it: BoardPiece, weft: readonly Item[]): LaidPiece {
  return {
    beginning: it.parts.beginning?.laid ?? null,
    weft: weft.map((item) => item.laid),
    ending: hemAfter(board, it, weft).laid,
  };
}

function endingOf(board: Board, { it, weft, strand }: KeptPiece): PieceEnding {
  const { reckoning } = board;
  const laid = laidPiece(board, it, weft ?? it.items);
  const hemPicks =
    weft === null ? (it.parts.ending?.picks ?? 0) : hemAfter(board, it, weft).turn.picks;
  return pieceEnding(reckoning, {
    piece: it.index,
    lines: stateLines(reckoning.plan, it.piece, laid),
    length: lengthOf(board, it, weft === null, strand),
    hemPicks,
    allPicks: strand.picks,
    toWeave: strand.toWeave,
    reads: readingOf(strand),
  });
}

/** A later piece is believed as so much more cloth of the same weaving. */
function lengthOf(
  { reckoning }: Board,
  it: BoardPiece,
  isAsLaid: boolean,
  strand: Strand,
): Interval {
  const { beliefs, context, present } = reckoning;
  const ahead = beliefs.ahead(strand.ahead);
  if (it.index !== present.index) return toWeave(beliefs.here, ahead);
  return isAsLaid ? context.believe(present.firstPick + present.picks) : ahead;
}

/** Blocks that are other than now; those of motifs left out or put in are not among them. */
function changesIn(it: BoardPiece, weft: readonly Item[]): readonly BlockChange[] {
  const to = new Map<number, { readonly turns: number; readonly picks: number }>();
  for (const { laid, block } of weft) {
    if (block === null) continue;
    const { turns, picks } = to.get(block) ?? { turns: 0, picks: 0 };
    to.set(block, { turns: turns + laid.turns, picks: picks + picksOf(laid) });
  }
  return it.items.flatMap(({ laid, block }) => {
    const now = block === null ? undefined : to.get(block);
    const from = { turns: laid.turns, picks: picksOf(laid) };
    if (block === null || now === undefined || now.picks === from.picks) return [];
    const turns = { turnsFrom: from.turns, turnsTo: now.turns };
    return [{ piece: it.index, block, ...turns, picksFrom: from.picks, picksTo: now.picks }];
  });
}
