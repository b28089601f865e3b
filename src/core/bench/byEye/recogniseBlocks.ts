/** From a record of picks to blocks: the solids, alternations, repeats and mirrors that lie in it. */
import type { Runs } from '../../measure/runs.ts';
import type { Block, Letter } from '../../plan/plan.ts';
import { cutsOf } from './recognise/cuts.ts';
import { type Edge, type Ground, groundOf, innerOf } from './recognise/edges.ts';
import { findsIn } from './recognise/finds.ts';
import { type Search, searchOver, wayBetween } from './recognise/search.ts';
import { runAfter, type Strip, startOf, stripOf } from './recognise/strip.ts';

/**
 * The record in as few blocks as it can be written in, a group counted as one and what it holds; of
 * equally few those with fewer numbers to read and fewer stripes cut. Laid out they give back exactly
 * its picks. Extents are picks and turns; an empty record has no blocks. A record of 3,000 picks takes
 * a few tens of milliseconds at most.
 *
 * An alternation is one where each colour takes turns for its own number of picks and comes round:
 * more turns than one period, or two whole periods where the cycle names a yarn twice.
 *
 * @example recogniseBlocks([{ of: 'A', count: 20 }, { of: 'B', count: 2 }, { of: 'A', count: 2 },
 *   { of: 'B', count: 2 }]) // A solid of 20, then an alternation of B 2 and A 2 in 3 turns
 */
export function recogniseBlocks(record: Runs<Letter>): readonly Block[] {
  const strip = stripOf(record);
  if (strip.runs === 0) return [];
  const finds = findsIn(strip);
  const ground = groundOf(strip, finds, cutsOf(strip, finds));
  const search = searchOver(ground);
  return blocksOn({ ground, search }, 0, null);
}

interface Reading {
  readonly ground: Ground;
  readonly search: Search;
}

function blocksOn(reading: Reading, from: number, to: number | null): readonly Block[] {
  let at = from;
  return wayBetween(reading.search, from, to).map((edge) => {
    const block = blockOf(reading, at, edge);
    at = edge.to;
    return block;
  });
}

function blockOf(reading: Reading, from: number, edge: Edge): Block {
  const { strip, cuts } = reading.ground;
  const [start, end] = [cuts[from] ?? 0, cuts[edge.to] ?? 0];
  switch (edge.kind) {
    case 'solid': {
      const yarn = strip.letters[strip.yarn[runAfter(strip, start)] ?? 0] ?? '';
      return { kind: 'solid', yarn, extent: { kind: 'picks', picks: end - start } };
    }
    case 'alternation': {
      const turns = turnsBetween(strip, start, end);
      const cycle = edge.path === 'round' ? turns.slice(0, edge.cycle) : walkedCycle(turns);
      const { kind, path } = edge;
      const extent = { kind: 'turns', turns: edge.turns } as const;
      return { kind, cycle, path, opens: turns[0]?.yarn ?? '', extent };
    }
    case 'repeat':
      return {
        kind: 'repeat',
        times: edge.times,
        of: blocksOn(reading, from, innerOf(edge)),
      };
    case 'mirror':
      return { kind: 'mirror', centre: edge.centre, of: blocksOn(reading, from, innerOf(edge)) };
  }
}

interface Turn {
  readonly yarn: Letter;
  readonly picks: number;
}

function turnsBetween(strip: Strip, from: number, to: number): readonly Turn[] {
  const first = runAfter(strip, from);
  const last = runAfter(strip, to - 1);
  return Array.from({ length: last - first + 1 }, (_, i) => ({
    yarn: strip.letters[strip.yarn[first + i] ?? 0] ?? '',
    picks: Math.min(to, startOf(strip, first + i + 1)) - Math.max(from, startOf(strip, first + i)),
  }));
}

/** The path of yarns walked to and fro, from the end that lets the first turn step forward. */
function walkedCycle(turns: readonly Turn[]): readonly Turn[] {
  const path: Turn[] = [];
  let at = -1;
  let step = 1;
  for (const turn of turns) {
    if (path.some((it) => it.yarn === turn.yarn)) {
      if (path[at + step]?.yarn !== turn.yarn) step = -step;
      at += step;
    } else if (step > 0) {
      path.push(turn);
      at = path.length - 1;
    } else {
      path.unshift(turn);
      at = 0;
    }
  }
  return path;
}
