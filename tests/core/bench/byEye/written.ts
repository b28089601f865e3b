/**
 * How many blocks a weft is written in, and the fewest any weft of given picks can be written in,
 * found the slow way: every cut, every block, no cleverness.
 */

import { mergeRuns, type Runs } from '../../../../src/core/measure/runs.ts';
import { type LaidBlock, layWeft, turnOf } from '../../../../src/core/plan/blocks.ts';
import type { AlternationBlock, Block, Letter, Plan } from '../../../../src/core/plan/plan.ts';

/**
 * Each block counts one, a group one and what it holds.
 *
 * An alternation counts one where it is one: each colour takes turns for its own number of picks and
 * comes round. It has come round when it has more turns than one period, and when its cycle names a
 * yarn twice, two whole periods. Any other is a list of solids and counts as its turns, or as a
 * repeat of those of one period and what is left over.
 */
export function writtenBlocks(plan: Plan, piece: number): number {
  const laid = new Map<string, LaidBlock>();
  // The first time a block is laid it is whole; on the way back of a mirror it may lack turns.
  for (const it of layWeft(plan, piece)) if (!laid.has(it.source)) laid.set(it.source, it);
  const count = (blocks: readonly Block[], path: string): number =>
    blocks.reduce((sum, block, i) => {
      const at = `${path}[${i}]`;
      if (block.kind === 'repeat' || block.kind === 'mirror')
        return sum + 1 + count(block.of, `${at}.of`);
      if (block.kind !== 'alternation') return sum + 1;
      return sum + writtenTurns(block, laid.get(at)?.turns ?? 0);
    }, 0);
  return count(plan.pieces[piece]?.weft ?? [], `pieces[${piece}].weft`);
}

function writtenTurns({ cycle, path }: AlternationBlock, turns: number): number {
  const yarns = new Set(cycle.map((turn) => turn.yarn)).size;
  const numbers = new Set(cycle.map((turn) => `${turn.yarn}${turn.picks}`)).size;
  const period = path === 'round' ? cycle.length : 2 * cycle.length - 2;
  const once = yarns === cycle.length ? period + 1 : 2 * period;
  if (numbers === yarns && turns >= once) return 1;
  return turns < 2 * period ? turns : Math.min(turns, 1 + period + (turns % period));
}

/** The picks of one piece as a plan lays them, as merged runs of letters. */
export function recordOf(plan: Plan, piece: number): Runs<Letter> {
  const turns = layWeft(plan, piece).flatMap((laid) =>
    Array.from({ length: laid.turns }, (_, k) => turnOf(laid, k)),
  );
  return mergeRuns(
    turns.map(({ yarn, picks }) => ({ of: plan.yarns[yarn]?.letter ?? '', count: picks })),
  );
}

/** The fewest blocks that give these picks, one letter a pick. For a few dozen picks at most. */
export function fewestBlocks(picks: string): number {
  const known = new Map<string, number>();
  const fewest = (part: string): number => {
    const before = known.get(part);
    if (before !== undefined) return before;
    let best = runsOf(part).length;
    if (best > 1) {
      if (alternates(part)) best = 1;
      for (let cut = 1; cut < part.length; cut++) {
        best = Math.min(best, fewest(part.slice(0, cut)) + fewest(part.slice(cut)));
        if (part === part.slice(0, cut).repeat(part.length / cut))
          best = Math.min(best, 1 + fewest(part.slice(0, cut)));
      }
      for (const half of halvesOf(part)) best = Math.min(best, 1 + fewest(half));
    }
    known.set(part, best);
    return best;
  };
  return fewest(picks);
}

const runsOf = (picks: string): readonly string[] => picks.match(/(.)\1*/g) ?? [];
const reversed = (picks: string) => [...picks].reverse().join('');

function halvesOf(part: string): readonly string[] {
  if (part !== reversed(part)) return [];
  const runs = runsOf(part);
  const shared = runs.slice(0, (runs.length + 1) / 2).join('');
  const middle = part.length / 2;
  return Number.isInteger(middle) ? [shared, part.slice(0, middle)] : [shared];
}

/** Whether its runs are one alternation that comes round. */
function alternates(part: string): boolean {
  const runs = runsOf(part);
  for (let m = 2; m < runs.length; m++) {
    const round = runs.every((run, i) => run === runs[i % m]);
    const cycle = runs.slice(0, m);
    const yarns = new Set(cycle.map((run) => run[0])).size;
    const own = new Set(cycle).size === yarns;
    if (round && own && (yarns === m || runs.length >= 2 * m)) return true;
  }
  return walks(runs);
}

/** Whether its runs walk to and fro along some path of different yarns. */
function walks(runs: readonly string[]): boolean {
  const kinds = [...new Set(runs)];
  const places = new Set(kinds.map((run) => run[0])).size;
  if (places < kinds.length || runs.length <= 2 * kinds.length - 2) return false;
  return orders(kinds).some((path) => [1, -1].some((step) => follows(runs, path, step)));
}

function follows(runs: readonly string[], path: readonly string[], first: number): boolean {
  let at = path.indexOf(runs[0] ?? '');
  let step = first;
  return runs.every((run, i) => {
    if (i > 0) {
      if (path[at + step] === undefined) step = -step;
      at += step;
    }
    return path[at] === run;
  });
}

function orders(kinds: readonly string[]): readonly (readonly string[])[] {
  if (kinds.length < 2) return [kinds];
  return kinds.flatMap((kind, i) =>
    orders(kinds.toSpliced(i, 1)).map((others) => [kind, ...others]),
  );
}
