/** Marks along the stripes, laid with them: what is sought lies a few steps from one, however long the course. */

/** Picks from one mark to the next. */
const PICKS_APART = 16;
/** Stripes from one mark to the next. */
const STRIPES_APART = 16;

/** The stripes as far as marks are set along them. */
export interface Marked {
  readonly count: number;
  readonly firstPick: Int32Array;
  readonly yarn: Uint8Array;
  readonly ofPieces: readonly { readonly firstStripe: number; readonly stripes: number }[];
}

export interface Milestones {
  /** The stripe that holds each marked pick. */
  readonly holding: Int32Array;
  /** Before each marked stripe the last of every yarn index, in whatever piece; −1 where there is none. */
  readonly lastOf: Int32Array;
  /** Of each piece the first stripe of every yarn index; −1 where there is none. */
  readonly firstOf: Int32Array;
  /** Yarns of the plan: so many entries a marked stripe and a piece. */
  readonly yarns: number;
}

/** Sets the marks along stripes, for so many yarns. Linear in the stripes. */
export function setMilestones(
  { count, firstPick, yarn, ofPieces }: Marked,
  yarns: number,
): Milestones {
  const marks = Math.ceil((firstPick[count] ?? 0) / PICKS_APART);
  const holding = new Int32Array(marks);
  const lastOf = new Int32Array(Math.ceil(count / STRIPES_APART) * yarns);
  const firstOf = new Int32Array(ofPieces.length * yarns).fill(-1);
  const last = new Int32Array(yarns).fill(-1);
  let mark = 0;
  for (const [piece, { firstStripe, stripes }] of ofPieces.entries()) {
    for (let r = firstStripe; r < firstStripe + stripes; r++) {
      const end = firstPick[r + 1] ?? 0;
      for (; mark * PICKS_APART < end; mark++) holding[mark] = r;
      if (r % STRIPES_APART === 0) lastOf.set(last, (r / STRIPES_APART) * yarns);
      const it = yarn[r] ?? 0;
      if ((last[it] ?? -1) < firstStripe) firstOf[piece * yarns + it] = r;
      last[it] = r;
    }
  }
  return { holding, lastOf, firstOf, yarns };
}

/** The stripe that holds a pick; the last one beyond the end, −1 before pick 0. */
export function stripeHolding(stripes: Marked & Milestones, pick: number): number {
  if (pick < 0) return -1;
  const { holding, firstPick } = stripes;
  const last = stripes.count - 1;
  let r = holding[Math.floor(pick / PICKS_APART)] ?? last;
  while (r < last && (firstPick[r + 1] ?? 0) <= pick) r++;
  return r;
}

/** The last stripe of a yarn up to this one, in whatever piece; −1 where there is none. */
export function lastOfYarn(stripes: Marked & Milestones, yarn: number, stripe: number): number {
  const { lastOf, yarns } = stripes;
  const mark = Math.floor(stripe / STRIPES_APART);
  for (let r = stripe; r >= mark * STRIPES_APART; r--) if (stripes.yarn[r] === yarn) return r;
  return lastOf[mark * yarns + yarn] ?? -1;
}
