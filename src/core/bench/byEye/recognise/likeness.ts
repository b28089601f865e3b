/** Where a strip is like itself: stretches that repeat, and stretches that read the same both ways. */
import { agreeing, type Strip, sameRun, startOf } from './strip.ts';

/** From cut `from` to cut `to` every pick equals the one `period` picks on; longest possible, twice the period at least. */
export interface Repetition {
  readonly from: number;
  readonly to: number;
  readonly period: number;
  /** Runs in one period. */
  readonly runs: number;
}

/** Every longest repetition whose period is not itself a repetition, shorter periods first. */
export function repetitionsOf(strip: Strip): readonly Repetition[] {
  const finding: Finding = { strip, found: [], byStart: new Map(), covers: [] };
  for (let runs = 2; 2 * runs <= strip.runs + 1; runs++) findBy(finding, runs);
  return finding.found;
}

interface Finding {
  readonly strip: Strip;
  readonly found: Repetition[];
  readonly byStart: Map<number, Repetition[]>;
  /** Of a run inside a repetition: the runs of its period, and the run it ends before. */
  readonly covers: { readonly runs: number; readonly end: number }[];
}

/** In a repetition at least all runs of a period but two agree with the next ones: looking at every so many finds it. */
function findBy(finding: Finding, runs: number): void {
  const { strip, covers } = finding;
  const step = Math.max(1, runs - 2);
  for (let run = 0; run + runs < strip.runs; ) {
    const cover = covers[run];
    if (cover !== undefined && runs % cover.runs === 0 && run + runs < cover.end) {
      run = seedAfter(cover.end - runs, step);
      continue;
    }
    let [first, end] = [run, run];
    while (end + runs < strip.runs && sameRun(strip, end, end + runs)) end++;
    if (end > run) while (first > 0 && sameRun(strip, first - 1, first - 1 + runs)) first--;
    // With two runs a period their ends alone may agree.
    if (end > run || runs <= 3) keep(finding, runs, first, end);
    run = seedAfter(Math.max(run, end), step);
  }
}

function seedAfter(run: number, step: number): number {
  return (Math.floor(run / step) + 1) * step;
}

/** Runs from `first` to before `end` agree with those one period on; the runs beside them may in part. */
function keep(finding: Finding, runs: number, first: number, end: number): void {
  const { strip, found, byStart, covers } = finding;
  const before = agreeing(strip, first - 1, first - 1 + runs);
  const after = agreeing(strip, end, end + runs);
  const period = startOf(strip, first + runs) - startOf(strip, first);
  const from = startOf(strip, first) - before;
  const to = startOf(strip, end) + period + after;
  if (to - from < 2 * period) return;
  const others = byStart.get(from) ?? [];
  if (others.some((other) => other.to === to && period % other.period === 0)) return;
  const it = { from, to, period, runs };
  byStart.set(from, [...others, it]);
  found.push(it);
  for (let run = first; run < end + runs; run++) covers[run] ??= { runs, end: end + runs };
}

/** How often a repetition is woven that begins at a cut in its first period and ends in its last one. */
export function timesAcross({ from, to, period }: Repetition, cut: number): readonly number[] {
  if (cut < from || cut > from + period) return [];
  const most = Math.floor((to - cut) / period);
  return [most, most - 1].filter((times) => times >= 2);
}

/** The longest stretch that reads the same both ways round one run. */
export interface Mirroring {
  readonly from: number;
  readonly to: number;
  /** The run in the middle. */
  readonly centre: number;
  /** Whole runs on either side that agree; at `from` and `to` a part of one more may. */
  readonly radius: number;
}

/** Every stretch that reads the same both ways over at least two runs, or parts of them, on either side. */
export function mirroringsOf(strip: Strip): readonly Mirroring[] {
  return radiiOf(strip).flatMap((radius, centre) => {
    const part = agreeing(strip, centre - radius - 1, centre + radius + 1);
    if (radius + (part > 0 ? 1 : 0) < 2) return [];
    const from = startOf(strip, centre - radius) - part;
    const to = startOf(strip, centre + radius + 1) + part;
    return [{ from, to, centre, radius }];
  });
}

/** How many runs on either side of each run mirror each other; linear, by what a wider mirror has already told. */
function radiiOf(strip: Strip): readonly number[] {
  const radii: number[] = [];
  let wide = { centre: 0, end: 0 };
  for (let centre = 0; centre < strip.runs; centre++) {
    const told = radii[2 * wide.centre - centre] ?? 0;
    let radius = centre < wide.end ? Math.min(told, wide.end - centre) : 0;
    while (mirrors(strip, centre, radius + 1)) radius++;
    if (centre + radius > wide.end) wide = { centre, end: centre + radius };
    radii.push(radius);
  }
  return radii;
}

function mirrors(strip: Strip, centre: number, away: number): boolean {
  const [left, right] = [centre - away, centre + away];
  return left >= 0 && right < strip.runs && sameRun(strip, left, right);
}
