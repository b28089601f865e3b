/** The large warp and its long log that the benchmarks measure with. Both invented, both always the same. */
import type { Happening, LogEvent } from '../../src/core/bench/events.ts';
import { happened } from '../../src/core/bench/happened.ts';
import { openDues } from '../../src/core/bench/openDues.ts';
import { type Progress, startOf } from '../../src/core/bench/progress.ts';
import type { Plan } from '../../src/core/plan/plan.ts';

export const PIECES = 20;
export const PICKS = 3_000;
export const ENDS = 800;

const WARP_ID = 'bench-warp-0000000000000';
const MOTIF_PICKS = 100;
const REPEAT_ENDS = 40;

export interface PlanSize {
  readonly pieces: number;
  /** Of each piece; a multiple of 100, the picks of its motif. */
  readonly picks: number;
  /** A multiple of 40, the ends of its warp's repeat. */
  readonly ends: number;
}

/** 20 pieces of 3,000 picks on 800 ends. */
export const LARGE: PlanSize = { pieces: PIECES, picks: PICKS, ends: ENDS };

/** One long piece of 4,000 picks on 1,000 ends. */
export const PICTURE: PlanSize = { pieces: 1, picks: 4_000, ends: 1_000 };

/** A warp of towels as a plan file would hold it: unknown, still to be checked. */
export function planFile({ pieces, picks, ends }: PlanSize): unknown {
  return {
    format: 'fellmark-plan',
    version: 1,
    name: 'Twenty towels',
    units: 'metric',
    loom: {
      kind: 'shaft',
      dents: { count: 50, per: '10cm' },
      endsPerDent: 2,
      weavingWidth: Math.max(1000, ends),
      frontTieOn: 200,
      backWaste: 600,
      weavingDepth: 150,
    },
    yarns: ['#5d7043', '#efe6d2', '#2f4560'].map((colour, i) => ({
      letter: 'ABC'.charAt(i),
      name: ['moss', 'chalk', 'ink'][i],
      colour,
      count: { system: 'cottonCount', number: 8, plies: 2 },
    })),
    warp: { order: [warpRepeat(ends)], viewpoint: 'front' },
    weaving: {
      hand: 'right',
      workingSide: 'right',
      pickSpacing: 1.25,
      carryLimit: 25,
      tailWidths: 3,
      picksBeforeStitching: 4,
      stitchGroup: 4,
      newYarnComesUp: 'under',
      outerFringes: 'own-warp',
      cuttingAllowance: 0,
    },
    allowances: allowances(),
    pieces: Array.from({ length: pieces }, (_, i) => towel(`Towel ${i + 1}`, picks)),
  };
}

function warpRepeat(ends: number) {
  const cycle = [
    { yarn: 'A', ends: 1 },
    { yarn: 'B', ends: 1 },
  ];
  const repeat = [
    { kind: 'solid', yarn: 'A', ends: 8 },
    { kind: 'alternation', cycle, turns: 24 },
    { kind: 'solid', yarn: 'C', ends: 8 },
  ];
  return { kind: 'repeat', times: ends / REPEAT_ENDS, of: repeat };
}

function allowances() {
  const from = { kind: 'practice' };
  const shares = {
    drawIn: 0.05,
    relax: 0.03,
    shrinkWidth: 0.06,
    shrinkLength: 0.07,
    warpTaken: 0.1,
    weftExtra: 0.07,
    twist: 0.1,
  };
  return Object.fromEntries(Object.entries(shares).map(([name, share]) => [name, { share, from }]));
}

/** Half solids, a quarter two and two, a quarter one and one: 41 turns in 100 picks. */
function towel(name: string, picks: number) {
  const edge = { kind: 'hemstitch', fringe: 50, twisted: true };
  const solid = (yarn: string) => ({
    kind: 'solid',
    yarn,
    extent: { kind: 'picks', picks: 24 },
  });
  const alternation = (yarns: string, picks: number, turns: number) => ({
    kind: 'alternation',
    cycle: [...yarns].map((yarn) => ({ yarn, picks })),
    path: 'round',
    opens: yarns.charAt(0),
    extent: { kind: 'turns', turns },
  });
  const motif = [solid('A'), alternation('BA', 2, 13), solid('C'), alternation('AC', 1, 26)];
  const weft = [{ kind: 'repeat', times: picks / MOTIF_PICKS, of: motif }];
  return { name, startShed: 'odd', beginning: edge, ending: edge, weft };
}

/** What a warp with its whole log is, as the store keeps it. */
export interface WovenWarp {
  readonly warp: {
    readonly id: string;
    readonly name: string;
    readonly demo: false;
    readonly madeAt: string;
    readonly wovenAt: string;
  };
  readonly plan: Plan;
  readonly log: readonly LogEvent[];
}

/** The large warp woven until `isEnough` says so; another `seed` is another weaver. */
export function wovenUntil(
  plan: Plan,
  isEnough: (progress: Progress, events: number) => boolean,
  seed = 20_250_101,
): WovenWarp {
  const log = weave(plan, isEnough, seed);
  const wovenAt = log[log.length - 1]?.at ?? timeOf(0);
  const warp = { id: WARP_ID, name: plan.name, demo: false, madeAt: timeOf(0), wovenAt } as const;
  return { warp, plan, log };
}

/** The n-th of any number of picks thrown one by one: the record that every tap writes. */
export function tapsOf({ warp }: WovenWarp): (n: number) => LogEvent {
  return (n) => headed(warp.id, n, { kind: 'thrown', picks: 1 });
}

interface Tap {
  readonly id: string;
  readonly before: Progress;
}

/**
 * A weaver who does what is due and corrects far more than anyone would: 13 events in 100 are undo,
 * 9 take a pick out, 3 in 10,000 take the other shed. Slips are what makes a log costly to fold.
 */
function weave(
  plan: Plan,
  isEnough: (progress: Progress, events: number) => boolean,
  seed: number,
): readonly LogEvent[] {
  const log: LogEvent[] = [];
  const chance = chances(seed);
  const taps: Tap[] = [];
  let progress = startOf(plan);
  while (!isEnough(progress, log.length)) {
    const happening = nextHappening(progress, taps, chance());
    const event = headed(WARP_ID, log.length, happening);
    log.push(event);
    if (happening.kind === 'undone') progress = taps.pop()?.before ?? progress;
    else {
      taps.push({ id: event.id, before: progress });
      progress = happened(progress, happening);
    }
  }
  return log;
}

function nextHappening(progress: Progress, taps: readonly Tap[], chance: number): Happening {
  const last = taps[taps.length - 1];
  const due = openDues(progress)[0];
  if (due?.kind === 'course' && chance < 0.7) return { kind: 'dueDone', due: due.id };
  if (due?.kind === 'advance') return { kind: 'advanced' };
  if (last !== undefined && chance < 0.13) return { kind: 'undone', event: last.id };
  if (chance < 0.22) return { kind: 'takenOut', picks: 1 };
  if (chance < 0.2203) return { kind: 'otherShed' };
  return { kind: 'thrown', picks: 1 };
}

function headed(warp: string, n: number, happening: Happening): LogEvent {
  const after = n === 0 ? null : idOf(n - 1);
  return { id: idOf(n), warp, after, at: timeOf(n), ...happening };
}

/** As long as the app's own ids. */
function idOf(n: number): string {
  return `bench${n.toString(36).padStart(19, '0')}`;
}

/** A tap every six seconds. */
function timeOf(n: number): string {
  return new Date(Date.UTC(2025, 0, 1) + n * 6_000).toISOString();
}

/** The same chances each time: a linear congruential generator (Park and Miller 1988). */
function chances(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
