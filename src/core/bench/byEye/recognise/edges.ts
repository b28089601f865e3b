/** The blocks that may begin at each cut: one edge of the search each, from cut to cut. */
import { LIMITS } from '../../../plan/limits.ts';
import type { Centre } from '../../../plan/plan.ts';
import {
  type AlternationPath,
  distinctUntilBack,
  goRound,
  roundsFrom,
  type SeeEnd,
  walksFrom,
} from './alternations.ts';
import type { Finds } from './finds.ts';
import { type Mirroring, type Repetition, timesAcross } from './likeness.ts';
import { insideRun, runAfter, type Strip, startOf } from './strip.ts';

/** `to` and `inner` are indices of cuts; what a group holds lies between its own cut and `inner`. */
export type Edge =
  | { readonly kind: 'solid'; readonly to: number; readonly cost: number }
  | {
      readonly kind: 'alternation';
      readonly to: number;
      readonly cost: number;
      readonly path: AlternationPath;
      /** Turns of the cycle as it is written, and of the whole. */
      readonly cycle: number;
      readonly turns: number;
    }
  | {
      readonly kind: 'repeat';
      readonly to: number;
      readonly cost: number;
      readonly inner: number;
      readonly times: number;
    }
  | {
      readonly kind: 'mirror';
      readonly to: number;
      readonly cost: number;
      readonly inner: number;
      readonly centre: Centre;
    };

/** One block more outweighs everything else; of equally many the ones easier to read win. */
const BLOCK = 65_536;

/** What stands in the way of reading: a number more to read, a block that meets another inside a stripe. */
const NUMBER = 1;
const INSIDE = 1;

export interface Ground {
  readonly strip: Strip;
  readonly finds: Finds;
  readonly cuts: Int32Array;
  /** Index of each cut by its place, −1 where none is tried. */
  readonly indexOf: Int32Array;
}

/** What blocks are looked for on, with the index of a cut to be had from its place. */
export function groundOf(strip: Strip, finds: Finds, cuts: Int32Array): Ground {
  const indexOf = new Int32Array(strip.picks + 1).fill(-1);
  for (const [index, cut] of cuts.entries()) indexOf[cut] = index;
  return { strip, finds, cuts, indexOf };
}

/** Every block by the index of the cut it begins at, groups last and in the order of what they hold. */
export function edgesOf(ground: Ground): readonly (readonly Edge[])[] {
  const { cuts, finds, indexOf } = ground;
  const edges = Array.from(cuts, (_, index) => solidsFrom(ground, index));
  const addTo = (from: number, to: number, edgesFrom: (cut: number) => readonly Edge[]) => {
    for (let cut = from; cut <= to; cut++) {
      const index = indexOf[cut] ?? -1;
      if (index >= 0) edges[index]?.push(...edgesFrom(cut));
    }
  };
  addTo(0, ground.strip.picks - 1, (cut) => alternationsFrom(ground, cut));
  for (const it of [...finds.repetitions, ...finds.across]) {
    addTo(it.from, it.to - 2 * it.period, (cut) => roundsOf(ground, it, cut));
  }
  for (const it of finds.repetitions) {
    addTo(it.from, it.to - 2 * it.period, (cut) =>
      repeatsFrom(ground, it, cut, timesFrom(it, cut)),
    );
  }
  for (const it of finds.across) {
    addTo(it.from, it.from + it.period, (cut) =>
      repeatsFrom(ground, it, cut, timesAcross(it, cut)),
    );
  }
  for (const it of finds.mirrorings) addTo(it.from, it.to, (cut) => mirrorsFrom(ground, it, cut));
  return edges.map((them) => them.sort((a, b) => innerOf(a) - innerOf(b)));
}

/** Index of the cut where what a group holds ends; −1 for a block that holds no others. */
export function innerOf(edge: Edge): number {
  return edge.kind === 'repeat' || edge.kind === 'mirror' ? edge.inner : -1;
}

function costOf({ strip }: Ground, to: number, numbers: number): number {
  return BLOCK + numbers * NUMBER + (insideRun(strip, to) ? INSIDE : 0);
}

function solidsFrom(ground: Ground, index: number): Edge[] {
  const { strip, cuts } = ground;
  const edges: Edge[] = [];
  const end = startOf(strip, runAfter(strip, cuts[index] ?? 0) + 1);
  for (let to = index + 1; to < cuts.length && (cuts[to] ?? 0) <= end; to++) {
    edges.push({ kind: 'solid', to, cost: costOf(ground, cuts[to] ?? 0, 1) });
  }
  return edges;
}

function alternationsFrom(ground: Ground, cut: number): readonly Edge[] {
  const edges: Edge[] = [];
  roundsFrom(ground.strip, cut, seeing(ground, edges, 'round'));
  walksFrom(ground.strip, cut, seeing(ground, edges, 'there-and-back'));
  return edges;
}

/** Alternations whose cycle names a yarn more than once, always with as many picks, gone round twice at least. */
function roundsOf(ground: Ground, { runs }: Repetition, cut: number): readonly Edge[] {
  const { strip } = ground;
  const edges: Edge[] = [];
  if (runs > LIMITS.yarns || distinctUntilBack(strip, runAfter(strip, cut)) === runs) return edges;
  if (!hasOwnNumbers(strip, cut, runs)) return edges;
  goRound(strip, cut, runs, 2 * runs, seeing(ground, edges, 'round'));
  return edges;
}

/** Whether each yarn has one number of picks in the turns from a cut on. */
function hasOwnNumbers(strip: Strip, cut: number, turns: number): boolean {
  const picks = new Map<number, number>();
  const run = runAfter(strip, cut);
  for (let k = run; k < run + turns; k++) {
    const yarn = strip.yarn[k] ?? 0;
    const own = startOf(strip, k + 1) - Math.max(cut, startOf(strip, k));
    if ((picks.get(yarn) ?? own) !== own) return false;
    picks.set(yarn, own);
  }
  return true;
}

function seeing(ground: Ground, edges: Edge[], path: AlternationPath): SeeEnd {
  return (turns, cycle, end) => {
    const to = ground.indexOf[end] ?? -1;
    const cost = costOf(ground, end, cycle);
    if (to >= 0) edges.push({ kind: 'alternation', to, path, turns, cycle, cost });
  };
}

function timesFrom({ from, to, period }: Repetition, cut: number): readonly number[] {
  const most = Math.floor((to - cut) / period);
  return cut < from ? [] : Array.from({ length: Math.max(0, most - 1) }, (_, i) => i + 2);
}

function repeatsFrom(
  ground: Ground,
  { period }: Repetition,
  cut: number,
  times: readonly number[],
): readonly Edge[] {
  const inner = ground.indexOf[cut + period] ?? -1;
  return times
    .filter((it) => it <= LIMITS.times)
    .map((it): Edge => {
      const end = cut + it * period;
      const to = ground.indexOf[end] ?? -1;
      return { kind: 'repeat', to, inner, times: it, cost: costOf(ground, end, 1) };
    })
    .filter((edge) => edge.to >= 0 && inner >= 0);
}

/** There and back: the middle run shared, or woven twice where it has a half. */
function mirrorsFrom(ground: Ground, it: Mirroring, cut: number): readonly Edge[] {
  const { strip, indexOf } = ground;
  const [start, end] = [startOf(strip, it.centre), startOf(strip, it.centre + 1)];
  if (cut < it.from || cut >= start) return [];
  const to = indexOf[start + end - cut] ?? -1;
  if (to < 0) return [];
  const cost = costOf(ground, start + end - cut, 1);
  const halves: readonly [Centre, number][] = [
    ['shared', indexOf[end] ?? -1],
    ['doubled', (start + end) % 2 === 0 ? (indexOf[(start + end) / 2] ?? -1) : -1],
  ];
  return halves
    .filter(([, inner]) => inner >= 0)
    .map(([centre, inner]) => ({ kind: 'mirror', to, inner, centre, cost }));
}
