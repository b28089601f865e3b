/** A motif put into a plan: among the blocks of a piece, or through the whole of it. */
import { layPiece } from '../../bench/layPiece.ts';
import type { Mm } from '../../measure/length.ts';
import { type LaidBlock, layWeft, plannedLengthOf } from '../../plan/blocks.ts';
import type { Motif } from '../../plan/motif.ts';
import { pieceLengths } from '../../plan/pieceLengths.ts';
import type { Letter, Plan, Yarn } from '../../plan/plan.ts';
import { groundOf, type KeptBy, onGround, weftLetters } from './changes.ts';
import { inARow, repeatsWithin } from './repeats.ts';

export interface IntoPlan {
  /** Which yarn of the plan each yarn of the motif is; null where it comes along. */
  readonly letters: ReadonlyMap<Letter, Letter | null>;
  readonly by: KeptBy;
  /** `after`: once, behind the blocks there are. `through`: in their place, as often as it fits. */
  readonly how: 'after' | 'through';
}

/**
 * The plan with a motif in the weft of one piece. Through a piece it fills the wished length, or else
 * what is planned now, and closes with its first stripe; once, where it does not fit. Null where the
 * plan has no such piece, or no letter left for a yarn that comes along.
 */
export function withMotif(
  plan: Plan,
  piece: number,
  motif: Motif,
  { letters, by, how }: IntoPlan,
): Plan | null {
  const it = plan.pieces[piece];
  const along = withYarns(plan, motif, letters);
  if (it === undefined || along === null) return null;
  const beat = (letter: Letter) =>
    along.plan.yarns.find((yarn) => yarn.letter === letter)?.pickSpacing ??
    plan.weaving.pickSpacing;
  const there = onGround(motif, groundOf(along.plan, beat), along.letters, by);
  const weft =
    how === 'after'
      ? [...it.weft, ...inARow(there, 1)]
      : (repeatsWithin(there, weftRoom(plan, piece), 'asBegun')?.blocks ?? there.blocks);
  const pieces = plan.pieces.map((one, i) => (i === piece ? { ...one, weft } : one));
  return { ...along.plan, pieces };
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

function withYarns(plan: Plan, motif: Motif, letters: IntoPlan['letters']) {
  const yarns: Yarn[] = [...plan.yarns];
  const to = new Map<Letter, Letter>();
  for (const letter of weftLetters(motif)) {
    const known = letters.get(letter) ?? null;
    const yarn = motif.yarns.find((it) => it.letter === letter);
    const free = [...LETTERS].find((it) => yarns.every((one) => one.letter !== it));
    if (known === null && yarn !== undefined) {
      if (free === undefined) return null;
      yarns.push({ ...yarn, letter: free });
      to.set(letter, free);
    } else if (known !== null) to.set(letter, known);
  }
  return { plan: { ...plan, yarns }, letters: to };
}

/** Loom length a piece has for its weft between the hems: by its wish, else what is planned now. */
export function weftRoom(plan: Plan, piece: number): Mm {
  const it = plan.pieces[piece];
  if (it === undefined) return 0;
  const sum = (laid: readonly LaidBlock[]) =>
    laid.reduce((mm, one) => mm + plannedLengthOf(one), 0);
  const weft = sum(layWeft(plan, piece));
  if (it.wish === undefined) return weft;
  const hems = sum(layPiece(plan, piece)) - weft;
  const { state, length } = it.wish;
  const nought = pieceLengths(plan, it, 0)[state];
  return (length - nought) / (pieceLengths(plan, it, 1)[state] - nought) - hems;
}
