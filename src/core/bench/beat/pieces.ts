/** From piece to piece: what is carried on, and what was believed of a piece when it was left. */
import type { Beat } from './beat.ts';
import { type Branch, everyWay, likely, NO_NEWS, pruned } from './branches.ts';
import type { BeatMark } from './marks.ts';
import { beatLoosened, nextPiece } from './quantities.ts';

/** So many of the pieces after the first are begun as if nothing were known: another day, another beat. */
const AFRESH = 0.3;

/** The estimator as it was, is, or would be in a piece: left, being woven, or not yet begun. */
export function inPiece(beat: Beat, piece: number): Beat {
  const here = leftAt(beat, piece);
  return pieceOf(here) === piece ? here : begun(here, piece);
}

/** The estimator as it was when the weaver went on from a piece. */
export function leftAt(beat: Beat, piece: number): Beat {
  if ((pieceOf(beat) ?? piece) <= piece) return beat;
  const next = beat.marks.findIndex((mark) => mark.piece > piece);
  const what = beat.marks[next]?.what;
  if (what?.kind !== 'begun') return beat;
  return { ...beat, marks: beat.marks.slice(0, next), branches: what.before };
}

/** The piece of the last mark. */
export function pieceOf({ marks }: Beat): number | undefined {
  return marks[marks.length - 1]?.piece;
}

/** A new piece: no cloth, no pins; the beat carries on, or starts afresh. The first one is as the prior says. */
function begun(beat: Beat, piece: number): Beat {
  const { marks, branches, prior, yarns } = beat;
  const planned = Array.from({ length: yarns }, () => 0);
  const what = { kind: 'begun', before: likely(branches) } as const;
  const mark: BeatMark = { what, piece, pick: 0, since: { kind: 'counted', planned } };
  const begin = (branch: Branch): Branch => ({ ...branch, before: null, mark, news: NO_NEWS });
  if (marks.length === 0) return { ...beat, marks: [mark], branches: branches.map(begin) };
  const both = everyWay(branches).flatMap((branch) => {
    const carried = { ...begin(branch), state: nextPiece(branch.state) };
    return [lighter(carried, 1 - AFRESH), afresh(carried, prior.spread)];
  });
  return { ...beat, marks: [...marks, mark], branches: pruned(both) };
}

function afresh(branch: Branch, spread: number): Branch {
  const state = beatLoosened(branch.state, spread);
  // Another past than the branch it comes from, so that the two are not taken for one.
  return { ...lighter(branch, AFRESH), recent: (branch.recent + 1) % 3, state };
}

const lighter = (branch: Branch, share: number): Branch => ({
  ...branch,
  weight: branch.weight + Math.log(share),
});
