/**
 * Shares of several pieces, of one warp or more, pooled: what the next piece, on another warp, may
 * be expected to do, and how far from it.
 *
 * A share differs from warp to warp (tension, the day's wash) and from piece to piece on one warp.
 * The mean is that of the warps' means, its error found from them alone (unweighted means: Thomas
 * and Hultquist, Annals of Statistics 6, 1978, p. 582). Few warps and pieces say little of a
 * spread, so each variance found begins with a usual one, worth `USUAL_WORTH` findings of its own
 * (scaled inverse χ², Gelman et al., Bayesian Data Analysis, 3rd ed., § 3.3).
 */
import { meanOf, nineInTen, spreadOf, squaresOf } from '../measure/spread.ts';
import { sureBy, USUAL_SPREAD, USUAL_WORTH } from '../plan/sureness.ts';

export interface PieceShare {
  /** The id of its warp. */
  readonly warp: string;
  readonly share: number;
  /** Standard deviation of what its readings leave open. */
  readonly error: number;
}

export interface PooledShare {
  readonly share: number;
  /** Standard deviation of the next piece about `share`: spread of warps and pieces, and of the mean. */
  readonly spread: number;
  /** Standard deviation of `share` itself. */
  readonly ofMean: number;
  /** What the readings alone leave open in a piece's share. */
  readonly within: number;
  /** Standard deviation between the pieces as found; null for one piece. */
  readonly between: number | null;
  readonly pieces: number;
  readonly warps: number;
}

/** Pools one share or more; throws on none. */
export function pooled(shares: readonly PieceShare[]): PooledShare {
  const warps = [...new Set(shares.map((it) => it.warp))];
  const groups = warps.map((warp) => shares.filter((it) => it.warp === warp).map((it) => it.share));
  const means = groups.map(meanOf);
  const readError = meanOf(shares.map((it) => it.error ** 2));
  const { ofPieces, ofMeans, thinness } = variancesOf(groups, means, readError);
  const ofMean = ofMeans / means.length;
  // What warps and pieces differ by beyond what their means hold of it; the next piece is meant as
  // it is, not as it will be read.
  const spread = ofMeans + ofMean + ofPieces * (1 - thinness) - readError;
  return {
    share: meanOf(means),
    spread: Math.sqrt(Math.max(spread, ofMean)),
    ofMean: Math.sqrt(ofMean),
    within: Math.sqrt(readError),
    between: spreadOf(shares.map((it) => it.share)),
    pieces: shares.length,
    warps: warps.length,
  };
}

interface Variances {
  /** Between pieces of one warp, with what their readings leave open. */
  readonly ofPieces: number;
  /** Between the means of warps, which holds that between warps and a part of that between pieces. */
  readonly ofMeans: number;
  /** That part: the mean of 1 / (pieces of the warp). */
  readonly thinness: number;
}

function variancesOf(
  groups: readonly (readonly number[])[],
  means: readonly number[],
  readError: number,
): Variances {
  const usual = USUAL_SPREAD ** 2 / 2;
  const pieces = groups.reduce((sum, own) => sum + own.length, 0);
  const thinness = meanOf(groups.map((own) => 1 / own.length));
  const inWarps = groups.reduce((sum, own) => sum + squaresOf(own), 0);
  const usualOfPieces = usual + readError;
  const usualOfMeans = usual + usualOfPieces * thinness;
  const mixed = (usualOne: number, squares: number, freedom: number) =>
    (USUAL_WORTH * usualOne + squares) / (USUAL_WORTH + freedom);
  return {
    thinness,
    ofPieces: mixed(usualOfPieces, inWarps, pieces - groups.length),
    ofMeans: mixed(usualOfMeans, squaresOf(means), means.length - 1),
  };
}

/** Where the next piece's share will lie nine times in ten. */
export function nextShare({ share, spread, pieces }: PooledShare): {
  readonly from: number;
  readonly to: number;
} {
  const half = nineInTen(sureBy(spread, pieces));
  return { from: share - half, to: share + half };
}
