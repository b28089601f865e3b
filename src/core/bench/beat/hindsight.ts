/** What later readings say about earlier picks of the same piece, for one branch. */
import type { Branch, News } from './branches.ts';
import {
  at,
  beforeMove,
  beforeReading,
  type Gaussian,
  type Hindsight,
  type Numbers,
  noHindsight,
  times,
} from './kalman.ts';
import { movesTo, type Stretch } from './marks.ts';

/** A branch some marks ago, and what everything later says of the moment before its own news. */
export interface Earlier {
  readonly branch: Branch;
  readonly hindsight: Hindsight;
}

/** The branch now: nothing later says anything. */
export function latest(last: Branch): Earlier {
  return withNews(last, noHindsight(last.state.mean.length));
}

/** The branch one mark before; null before its piece. */
export function oneBack(later: Earlier): Earlier | null {
  const { before, mark } = later.branch;
  return before && mark ? withNews(before, beforeMark(later, mark.since)) : null;
}

/** Worked out once for a branch, as far back as anyone asked. */
const LINES = new WeakMap<Branch, Earlier[]>();

/** The branch `steps` marks ago; null before its piece. */
export function earlier(last: Branch, steps: number): Earlier | null {
  const line = LINES.get(last) ?? [latest(last)];
  LINES.set(last, line);
  let here = line[line.length - 1] ?? null;
  while (here && line.length <= steps) {
    here = oneBack(here);
    if (here) line.push(here);
  }
  return line[steps] ?? null;
}

function withNews(branch: Branch, after: Hindsight): Earlier {
  return { branch, hindsight: beforeNews(after, branch.news) };
}

/** What is said of the moment with this rest of the stretch to weave before the mark of `later`. */
export function beforeMark({ branch, hindsight }: Earlier, rest: Stretch): Hindsight {
  if (branch.mark === null) return hindsight;
  const moves = movesTo(branch.mark, branch.state.mean.length, rest);
  return moves.reduceRight(beforeMove, hindsight);
}

function beforeNews(after: Hindsight, news: News): Hindsight {
  switch (news.kind) {
    case 'none':
      return after;
    case 'seen':
      return beforeReading(after, news.seen);
    case 'kept':
      return joined(news.hindsight, after, news.cov);
  }
}

/** Two hindsights, the second told of the belief after the first: with A = 1 − hold·cov, pull + A·pull′ and hold + A·hold′·Aᵀ. */
function joined(first: Hindsight, second: Hindsight, cov: Numbers): Hindsight {
  const n = first.pull.length;
  const left = (vector: Numbers): Numbers => {
    const back = times(first.hold, times(cov, vector));
    return vector.map((it, i) => it - at(back, i));
  };
  const half = eachRow(second.hold, n, left);
  const whole = eachRow(transposed(half, n), n, left);
  const pull = left(second.pull);
  return {
    pull: first.pull.map((it, i) => it + at(pull, i)),
    hold: first.hold.map((it, i) => it + at(whole, i)),
  };
}

/** The belief at a moment, with hindsight. */
export function withHindsight({ mean, cov }: Gaussian, { pull, hold }: Hindsight): Gaussian {
  const n = mean.length;
  const back = times(cov, pull);
  const half = eachRow(cov, n, (row) => times(hold, row));
  const whole = eachRow(half, n, (row) => times(cov, row));
  return {
    mean: mean.map((it, i) => it - at(back, i)),
    cov: cov.map((it, i) => it - at(whole, i)),
  };
}

function eachRow(matrix: Numbers, n: number, change: (row: Numbers) => Numbers): Numbers {
  const rows: number[] = [];
  for (let i = 0; i < n; i++) rows.push(...change(matrix.slice(i * n, i * n + n)));
  return rows;
}

function transposed(matrix: Numbers, n: number): Numbers {
  return matrix.map((_, i) => at(matrix, (i % n) * n + Math.floor(i / n)));
}
