/**
 * The cuts worth trying. All of them would do, but a record has thousands and the search grows with
 * their square; where blocks may meet follows from the record's own likeness.
 */
import { roundsFrom, type SeeEnd, walksFrom } from './alternations.ts';
import type { Finds, FreeEnds } from './finds.ts';
import { type Mirroring, type Repetition, timesAcross } from './likeness.ts';
import { insideRun, type Strip, startOf } from './strip.ts';

/** Ascending, the first 0 and the last the end. */
export function cutsOf(strip: Strip, finds: Finds): Int32Array {
  const known = new Uint8Array(strip.picks + 1);
  const waiting: number[] = [];
  const add = (cut: number) => {
    if (cut < 0 || cut > strip.picks || known[cut] === 1) return;
    known[cut] = 1;
    waiting.push(cut);
  };
  const back = reversed(strip);
  const near = nearEachCut(strip, likenessesIn(finds));
  for (const cut of plainCuts(strip, finds)) add(cut);
  for (let cut = waiting.pop(); cut !== undefined; cut = waiting.pop()) {
    addEnds(strip, cut, add);
    addEnds(back, strip.picks - cut, (it) => add(strip.picks - it));
    for (const it of near(cut)) if (cut >= it.from && cut <= it.to) it.imagesOf(cut).forEach(add);
  }
  return Int32Array.from([...known.keys()].filter((cut) => known[cut] === 1));
}

/** Between runs, except deep inside; and the ends and middles of what is like itself. */
function plainCuts(strip: Strip, finds: Finds): readonly number[] {
  const between = Array.from({ length: strip.runs + 1 }, (_, run) => run).filter(
    (run) => finds.deep[run] !== 1,
  );
  return [
    ...between.map((run) => startOf(strip, run)),
    ...[...finds.repetitions, ...finds.across].flatMap((it) => [it.from, it.to]),
    ...finds.mirrorings.flatMap((it) => [it.from, it.to, ...halvesOf(strip, it)]),
    ...sharedRuns(finds),
  ];
}

/** Where the half of a mirror may end: after the middle run, or in the very middle. */
function halvesOf(strip: Strip, { from, to, centre }: Mirroring): readonly number[] {
  const middle = (from + to) / 2;
  return [startOf(strip, centre + 1), ...(Number.isInteger(middle) ? [middle] : [])];
}

/** A run two alternations may share, each taking what the other leaves: cut anywhere, after its first pick say. */
function sharedRuns({ free }: Finds): readonly number[] {
  const opening = new Set(free.map((it) => `${it.from} ${it.left}`));
  return free
    .filter((it) => it.to - it.right > 1 && opening.has(`${it.right} ${it.to}`))
    .map((it) => it.right + 1);
}

/** Alternations that end inside a run. */
function addEnds(strip: Strip, cut: number, add: (cut: number) => void): void {
  if (cut >= strip.picks) return;
  const see: SeeEnd = (_turns, _cycle, end) => {
    if (insideRun(strip, end)) add(end);
  };
  roundsFrom(strip, cut, see);
  walksFrom(strip, cut, see);
}

/** A stretch in which a cut has others like it. */
interface Likeness {
  readonly from: number;
  readonly to: number;
  readonly imagesOf: (cut: number) => readonly number[];
}

function likenessesIn(finds: Finds): readonly Likeness[] {
  return [
    ...finds.repetitions.map((it) => ({ ...it, imagesOf: (cut: number) => shifted(it, cut) })),
    ...finds.across.map((it) => ({ ...it, imagesOf: (cut: number) => across(it, cut) })),
    ...finds.mirrorings.map((it) => ({
      ...it,
      imagesOf: (cut: number) => [it.from + it.to - cut],
    })),
    ...finds.free.map((it) => ({ ...it, imagesOf: (cut: number) => freely(it, cut) })),
  ];
}

function shifted({ from, to, period }: Repetition, cut: number): readonly number[] {
  return [cut - period, cut + period].filter((it) => it >= from && it <= to);
}

/** From one end of a repetition to the other, and what the repeat would hold. */
function across(it: Repetition, cut: number): readonly number[] {
  const there = timesAcross(it, cut).map((times) => cut + times * it.period);
  const back = timesAcross(it, it.from + it.to - cut).map((times) => cut - times * it.period);
  return [...there, ...back, ...(there.length > 0 ? [cut + it.period] : [])];
}

function freely({ from, left, right, to }: FreeEnds, cut: number): readonly number[] {
  return (cut > from && cut < left) || (cut > right && cut < to) ? [from + to - cut] : [];
}

/** Picks of one bucket. */
const BUCKET = 32;

/** The likenesses a cut may lie in. */
function nearEachCut(
  strip: Strip,
  likenesses: readonly Likeness[],
): (cut: number) => readonly Likeness[] {
  const buckets: Likeness[][] = Array.from(
    { length: Math.floor(strip.picks / BUCKET) + 1 },
    () => [],
  );
  for (const it of likenesses) {
    const last = Math.floor(it.to / BUCKET);
    for (let i = Math.floor(it.from / BUCKET); i <= last; i++) buckets[i]?.push(it);
  }
  return (cut) => buckets[Math.floor(cut / BUCKET)] ?? [];
}

function reversed(strip: Strip): Strip {
  const start = Int32Array.from({ length: strip.runs + 1 }, (_, run) => {
    return strip.picks - startOf(strip, strip.runs - run);
  });
  const [yarn, count] = [strip.yarn.toReversed(), strip.count.toReversed()];
  return { ...strip, start, yarn, count };
}
