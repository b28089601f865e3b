/** Small plans for tests: a sound one to begin with, and the blocks to change it by. */
import { readFileSync } from 'node:fs';
import { checkPlan } from '../../../src/core/plan/checkPlan.ts';
import type {
  AlternationBlock,
  Block,
  Piece,
  Plan,
  SolidBlock,
} from '../../../src/core/plan/plan.ts';

export const INCH = 25.4;

const practice = (share: number) => ({ share, from: { kind: 'practice' as const } });

export const NO_ALLOWANCES: Plan['allowances'] = {
  drawIn: practice(0),
  relax: practice(0),
  shrinkWidth: practice(0),
  shrinkLength: practice(0),
  warpTaken: practice(0),
  weftExtra: practice(0),
  twist: practice(0),
};

const COLOURS = ['#5d7043', '#efe6d2', '#b4552d', '#2f4560', '#c58a2b', '#333333'];

export function yarns(letters: string): Plan['yarns'] {
  return [...letters].map((letter, i) => ({
    letter,
    name: `yarn ${letter}`,
    colour: COLOURS[i % COLOURS.length] ?? '#000000',
    count: { system: 'cottonCount', number: 8, plies: 4 },
  }));
}

export const PLAIN_EDGE = { kind: 'plain', washedAllowance: 0 } as const;

export function pieceOf(weft: readonly Block[], changes: Partial<Piece> = {}): Piece {
  const edges = { beginning: PLAIN_EDGE, ending: PLAIN_EDGE };
  return { name: 'Piece', startShed: 'up', ...edges, weft, ...changes };
}

/** 40 in of a 12½ dent heddle, 4 ends, one pick a tenth of an inch, every allowance nought. */
export const BASE: Plan = {
  format: 'fellmark-plan',
  version: 1,
  name: 'Sample',
  units: 'inch',
  loom: {
    kind: 'rigid-heddle',
    dents: { count: 12.5, per: 'inch' },
    endsPerDent: 1,
    weavingWidth: 40 * INCH,
    frontTieOn: 200,
    backWaste: 300,
    weavingDepth: 120,
  },
  yarns: yarns('AB'),
  warp: {
    order: [{ kind: 'solid', yarn: 'A', ends: 4 }],
    firstEnd: 'slot',
    viewpoint: 'front',
  },
  weaving: {
    hand: 'right',
    workingSide: 'right',
    pickSpacing: INCH / 10,
    carryLimit: INCH,
    tailWidths: 3,
    picksBeforeStitching: 4,
    stitchGroup: 4,
    newYarnComesUp: 'under',
    outerFringes: 'own-warp',
    cuttingAllowance: 0,
  },
  allowances: NO_ALLOWANCES,
  pieces: [pieceOf([solid('A', 4)])],
};

/** The base plan with other parts, checked as any plan is; throws what is wrong with it. */
export function planOf(changes: Partial<Plan>): Plan {
  return checked({ ...BASE, ...changes });
}

/** A plan of one or more wefts, each a piece without edges. */
export function planWeaving(letters: string, ...wefts: readonly (readonly Block[])[]): Plan {
  return planOf({ yarns: yarns(letters), pieces: wefts.map((weft) => pieceOf(weft)) });
}

export function checked(input: unknown): Plan {
  const result = checkPlan(input);
  if (!result.ok) throw new Error(`no plan: ${JSON.stringify(result.problem)}`);
  return result.value;
}

export function solid(yarn: string, picks: number): SolidBlock {
  return { kind: 'solid', yarn, extent: { kind: 'picks', picks } };
}

export function solidOfLength(yarn: string, loomLength: number): SolidBlock {
  return { kind: 'solid', yarn, extent: { kind: 'length', loomLength } };
}

/** An alternation such as `A2 B2`, that opens on its first yarn unless told otherwise. */
export function alternation(
  cycle: string,
  extent: AlternationBlock['extent'],
  changes: Partial<AlternationBlock> = {},
): AlternationBlock {
  const turns = cycle
    .split(' ')
    .map((turn) => ({ yarn: turn.slice(0, 1), picks: Number(turn.slice(1)) }));
  const opens = turns[0]?.yarn ?? 'A';
  return { kind: 'alternation', cycle: turns, path: 'round', opens, extent, ...changes };
}

export const DEMOS = ['moss-and-chalk', 'ink-oat-ochre'] as const;

/** What a demo plan's file holds, freshly read. */
export function demo(name: (typeof DEMOS)[number]): unknown {
  return JSON.parse(demoText(name));
}

export function demoText(name: (typeof DEMOS)[number]): string {
  return readFileSync(new URL(`../../../src/demos/${name}.json`, import.meta.url), 'utf8');
}
