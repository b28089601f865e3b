/**
 * Alternations in a strip, those that come round: each yarn has one place in the cycle, all of them
 * had their turn and the first of them had it again. Anything less is a list of solids.
 */
import { runAfter, type Strip, startOf } from './strip.ts';

export type AlternationPath = 'round' | 'there-and-back';

/** An alternation of so many turns ends at a cut; `cycle` counts the places of its cycle as it is written. */
export type SeeEnd = (turns: number, cycle: number, end: number) => void;

/** Every alternation A B C A B C … that begins at a cut, shortest first. */
export function roundsFrom(strip: Strip, cut: number, see: SeeEnd): void {
  const run = runAfter(strip, cut);
  const cycle = distinctUntilBack(strip, run);
  if (cycle > 0) goRound(strip, cut, cycle, cycle + 1, see);
}

/**
 * Alternations from a cut that go round a cycle of so many runs, from `least` turns on. The cycle may
 * name a yarn more than once.
 */
export function goRound(
  strip: Strip,
  cut: number,
  cycle: number,
  least: number,
  see: SeeEnd,
): void {
  const run = runAfter(strip, cut);
  const opening = startOf(strip, run + 1) - cut;
  for (let turn = cycle; run + turn < strip.runs; turn++) {
    const place = turn % cycle;
    const want = place === 0 ? opening : (strip.count[run + place] ?? 0);
    const have = strip.count[run + turn] ?? 0;
    if (strip.yarn[run + turn] !== strip.yarn[run + place] || have < want) return;
    const end = startOf(strip, run + turn) + want;
    if (turn + 1 >= least) see(turn + 1, cycle, end);
    if (have > want) return;
  }
}

/** Runs until the yarn of this one comes again, if all between are of different yarns; else 0. */
export function distinctUntilBack(strip: Strip, run: number): number {
  let seen = 0;
  for (let k = run; k < strip.runs; k++) {
    const yarn = strip.yarn[k] ?? 0;
    if (k > run && yarn === strip.yarn[run]) return k - run;
    // One bit a yarn: letters go from A to Z.
    if ((seen >> yarn) & 1) return 0;
    seen |= 1 << yarn;
  }
  return 0;
}

/** Whether the first yarn to come a second time is that of two runs before: most runs are settled by this alone. */
function turnsBack(strip: Strip, run: number): boolean {
  let seen = 0;
  for (let k = run; k < strip.runs; k++) {
    const yarn = strip.yarn[k] ?? 0;
    if ((seen >> yarn) & 1) return yarn === strip.yarn[k - 2];
    seen |= 1 << yarn;
  }
  return false;
}

/** A path of yarns walked to and fro; both its ends are open until it has turned there. */
interface Walk {
  /** Yarn and picks of each place; places run from `low` to `high` and may be less than 0. */
  readonly yarns: Map<number, number>;
  readonly picks: Map<number, number>;
  low: number;
  high: number;
  at: number;
  step: 1 | -1;
  seen: number;
  lowTurned: boolean;
  highTurned: boolean;
}

/** Every alternation A B C B A B … of three yarns and more that begins at a cut. */
export function walksFrom(strip: Strip, cut: number, see: SeeEnd): void {
  const run = runAfter(strip, cut);
  if (strip.letters.length < 3 || !turnsBack(strip, run)) return;
  const walk = walkAt(strip.yarn[run] ?? 0, startOf(strip, run + 1) - cut);
  for (let k = run + 1; k < strip.runs; k++) {
    const picks = stepOf(walk, strip.yarn[k] ?? 0, strip.count[k] ?? 0);
    if (picks === null) return;
    const turns = k - run + 1;
    const cycle = walk.high - walk.low + 1;
    // Two yarns to and fro go round.
    if (cycle < 3 && walk.lowTurned && walk.highTurned) return;
    if (cycle >= 3 && turns > 2 * cycle - 2) see(turns, cycle, startOf(strip, k) + picks);
    if (picks < (strip.count[k] ?? 0)) return;
  }
}

function walkAt(yarn: number, picks: number): Walk {
  return {
    yarns: new Map([[0, yarn]]),
    picks: new Map([[0, picks]]),
    low: 0,
    high: 0,
    at: 0,
    step: 1,
    seen: 1 << yarn,
    lowTurned: false,
    highTurned: false,
  };
}

/** Walks to the next place if a run of this yarn and so many picks can be its turn: the picks that takes. */
function stepOf(walk: Walk, yarn: number, count: number): number | null {
  const edge = walk.step === 1 ? walk.high : walk.low;
  const turned = walk.step === 1 ? walk.highTurned : walk.lowTurned;
  if (walk.at === edge && !turned && !((walk.seen >> yarn) & 1)) {
    goFurther(walk, yarn, count);
    return count;
  }
  if (walk.at === edge) turnBack(walk);
  const next = walk.at + walk.step;
  const picks = walk.picks.get(next) ?? 0;
  if (walk.yarns.get(next) !== yarn || count < picks) return null;
  walk.at = next;
  return picks;
}

function goFurther(walk: Walk, yarn: number, picks: number): void {
  walk.at += walk.step;
  if (walk.step === 1) walk.high = walk.at;
  else walk.low = walk.at;
  walk.yarns.set(walk.at, yarn);
  walk.picks.set(walk.at, picks);
  walk.seen |= 1 << yarn;
}

function turnBack(walk: Walk): void {
  if (walk.step === 1) walk.highTurned = true;
  else walk.lowTurned = true;
  walk.step = walk.step === 1 ? -1 : 1;
}

/** The runs an alternation covers whole from the start of a run on: where it ends, and how long its period is. */
export interface Reach {
  readonly end: number;
  readonly period: number;
}

/** How far an alternation reaches from each run, by either path; `end` is the run itself where none begins. */
export function reachesOf(strip: Strip, path: AlternationPath): readonly Reach[] {
  const reaches: Reach[] = [];
  for (let run = 0; run < strip.runs; run++) {
    const before = reaches[run - 1];
    // Well inside an alternation the same one goes on.
    if (before !== undefined && before.end - run > before.period + 1) reaches.push(before);
    else reaches.push(reachFrom(strip, run, path));
  }
  return reaches;
}

function reachFrom(strip: Strip, run: number, path: AlternationPath): Reach {
  let reach: Reach = { end: run, period: 0 };
  const see: SeeEnd = (turns, cycle, last) => {
    if (last !== startOf(strip, run + turns)) return;
    reach = { end: run + turns, period: path === 'round' ? cycle : 2 * cycle - 2 };
  };
  const cut = startOf(strip, run);
  if (path === 'round') roundsFrom(strip, cut, see);
  else walksFrom(strip, cut, see);
  return reach;
}
