/** What is found in a strip before the search: alternations, repetitions and mirrorings. */
import { distinctUntilBack, type Reach, reachesOf } from './alternations.ts';
import { type Mirroring, mirroringsOf, type Repetition, repetitionsOf } from './likeness.ts';
import { agreeing, insideRun, runAfter, type Strip, startOf } from './strip.ts';

export interface Finds {
  /** Repetitions that blocks may begin and end in the middle of. */
  readonly repetitions: readonly Repetition[];
  /** Repetitions worth a repeat only from end to end: of one alternation, or very long. */
  readonly across: readonly Repetition[];
  /** Those that no alternation says in fewer words. */
  readonly mirrorings: readonly Mirroring[];
  /** Where an alternation may open and close within two runs, with any number of picks it has in both. */
  readonly free: readonly FreeEnds[];
  /** 1 for each run so far inside an alternation or a long repetition that no block begins or ends there by itself. */
  readonly deep: Uint8Array;
}

/** Cuts `from` to `left` and `right` to `to` lie in those two runs and mirror each other. */
export interface FreeEnds {
  readonly from: number;
  readonly left: number;
  readonly right: number;
  readonly to: number;
}

/**
 * Where a strip is like itself, as far as blocks come of it: no mirroring that an alternation or a repeat
 * says as well.
 */
export function findsIn(strip: Strip): Finds {
  const reaches = [reachesOf(strip, 'round'), reachesOf(strip, 'there-and-back')];
  const around = (from: number, to: number) =>
    reaches.map((them) => them[from]).find((it) => it !== undefined && it.end >= to);
  const [repetitions, mirrorings] = [repetitionsOf(strip), mirroringsOf(strip)];
  const long = repetitions.filter(isLong);
  const isAcross = (it: Repetition) =>
    isLong(it) || around(runFrom(strip, it.from), runAfter(strip, it.to)) !== undefined;
  const alternates = ({ centre, radius }: Mirroring) =>
    around(centre - radius, centre + radius + 1);
  // A half shorter than a period may be an alternation of another kind.
  const useless = (it: Mirroring) =>
    it.radius > (alternates(it)?.period ?? it.radius) || long.some((wide) => holds(wide, it));
  const deep = deepRuns(strip, reaches, long);
  const free = [
    ...mirrorings.filter(alternates).map((it) => freeEnds(strip, it)),
    ...returns(strip),
  ];
  return {
    repetitions: repetitions.filter((it) => !isAcross(it)),
    across: repetitions.filter(isAcross),
    mirrorings: mirrorings.filter((it) => !useless(it)),
    free: free.filter((it) => !isDeep(strip, deep, it)),
    deep,
  };
}

/** Periods from which on a repetition counts as long: blocks then meet near its ends, not in its midst. */
const LONG = 6;

function isLong({ from, to, period }: Repetition): boolean {
  return to - from >= LONG * period;
}

/** Whether a repeat says as much as a mirror would. */
function holds(wide: Repetition, { from, to }: Mirroring): boolean {
  return from >= wide.from && to <= wide.to && to - from >= 4 * wide.period;
}

/** The first run that begins at or after a cut. */
function runFrom(strip: Strip, cut: number): number {
  return runAfter(strip, cut) + (insideRun(strip, cut) ? 1 : 0);
}

function freeEnds(strip: Strip, { from, to, centre, radius }: Mirroring): FreeEnds {
  return {
    from,
    left: startOf(strip, centre - radius),
    right: startOf(strip, centre + radius + 1),
    to,
  };
}

/** A yarn, others each once, and the yarn again: A B C A. */
function returns(strip: Strip): readonly FreeEnds[] {
  return Array.from({ length: strip.runs }, (_, run) => run).flatMap((run) => {
    const cycle = distinctUntilBack(strip, run);
    if (cycle === 0) return [];
    const [left, right] = [startOf(strip, run + 1), startOf(strip, run + cycle)];
    const most = agreeing(strip, run, run + cycle);
    return [{ from: left - most, left, right, to: right + most }];
  });
}

function isDeep(strip: Strip, deep: Uint8Array, { from, right }: FreeEnds): boolean {
  return deep[runAfter(strip, from)] === 1 || deep[runAfter(strip, right)] === 1;
}

/** Turns of an alternation that stay in sight at its ends beyond one period. */
const MARGIN = 2;

function deepRuns(
  strip: Strip,
  reaches: readonly (readonly Reach[])[],
  long: readonly Repetition[],
): Uint8Array {
  const deep = new Uint8Array(strip.runs + 1);
  for (const path of reaches) {
    for (let run = 0; run < strip.runs; ) {
      const { end, period } = path[run] ?? { end: run, period: 0 };
      const margin = period + MARGIN;
      if (end - run > 2 * margin) deep.fill(1, run + margin, end - margin);
      run = Math.max(run + 1, end - margin);
    }
  }
  for (const { from, to, period } of long) {
    deep.fill(1, runFrom(strip, from + 2 * period), runAfter(strip, to - 2 * period));
  }
  return deep;
}
