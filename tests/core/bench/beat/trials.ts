/** Simulated weavers asked at a quarter, half and three quarters of a piece: what the estimator says, beside the truth. */
import {
  type Beat,
  measured,
  PLANNED,
  pinned,
  startBeat,
} from '../../../../src/core/bench/beat/beat.ts';
import { lengthAt } from '../../../../src/core/bench/beat/lengths.ts';
import type { Place, Ruler } from '../../../../src/core/bench/beat/marks.ts';
import type { Believed } from '../../../../src/core/bench/beat/quantiles.ts';
import {
  type Chance,
  chanceFrom,
  type Done,
  USUAL,
  type Weaver,
  weavePiece,
} from './simulatedWeaver.ts';

export const QUARTERS = [0.25, 0.5, 0.75] as const;

/** What was said at one moment of one piece. */
export interface Answer {
  /** Whether the 90 % interval held the truth: at the fell, at the end of the piece, at a pick woven before. */
  readonly fell: boolean;
  readonly final: boolean;
  readonly woven: boolean;
  /** Off the true final length, mm: the forecast, and the plan. */
  readonly finalError: number;
  readonly planError: number;
}

export interface Trial {
  /** At each of the quarters. */
  readonly answers: readonly Answer[];
  /** Picks before the true jump, and at which picks one was said. */
  readonly jump: number | null;
  readonly saidAt: readonly number[];
  readonly picks: number;
}

/** The first piece of a warp, as `pick` counts there. */
export const placeAt = (pick: number): Place => ({ piece: 0, firstPick: 0, pick });

/** Planned lengths of a piece given as the yarn of every pick. */
export function rulerFor(yarns: readonly number[], spacings: readonly number[]): Ruler {
  const upTo = spacings.map((spacing, yarn) => {
    let sum = 0;
    return [0, ...yarns.map((it) => (sum += it === yarn ? spacing : 0))];
  });
  const at = (sums: readonly number[], pick: number) => sums[Math.min(pick, yarns.length)] ?? 0;
  return (from, to) => upTo.map((sums) => at(sums, to) - at(sums, from));
}

const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);

/** A hem, solids and alternations by turns as chance has it, a hem; about `length` mm by the plan. */
export function stripedPiece(weaver: Weaver, chance: Chance, length: number): readonly number[] {
  const { spacings } = weaver;
  const solid = (yarn: number, mm: number) =>
    Array.from({ length: Math.round(mm / (spacings[yarn] ?? 1)) }, () => yarn);
  const hem = solid(spacings.length - 1, chance.between([25, 40]));
  const yarns = [...hem];
  const room = length - sum(hem.map((yarn) => spacings[yarn] ?? 0));
  const woven = () => sum(yarns.map((yarn) => spacings[yarn] ?? 0));
  while (woven() < room) {
    if (chance.happens(0.5)) yarns.push(...solid(0, chance.between([30, 120])));
    else {
      const turns = 3 + 2 * Math.floor(chance.between([0, 6]));
      for (let turn = 0; turn < turns; turn++) {
        const yarn = turn % spacings.length;
        yarns.push(yarn, yarn, yarn, yarn);
      }
    }
  }
  return [...yarns, ...hem];
}

/** What the estimator makes of what the weaver did. */
export function toldBeat(beat: Beat, ruler: Ruler, place: Place, done: Done): Beat {
  if (done.kind === 'pinned') return pinned(beat, ruler, place, done.pin);
  return measured(beat, ruler, place, { ...done, mm: done.loomLength });
}

const holds = ({ low, high }: Believed, truth: number) => low <= truth && truth <= high;

export function trialOf(weaver: Weaver, seed: number, length = usualLength): Trial {
  const chance = chanceFrom(seed);
  const yarns = stripedPiece(weaver, chance, length(chance));
  const ruler = rulerFor(yarns, weaver.spacings);
  const planned = sum(ruler(0, yarns.length));
  const stops = QUARTERS.map((share) => Math.round(share * yarns.length));
  const then: Beat[] = [];
  const saidAt: number[] = [];
  let beat = startBeat(weaver.spacings.length, PLANNED);
  const loom = {
    about: planned,
    next: (picks: number) => {
      if (picks === stops[then.length]) then.push(beat);
      return yarns[picks] ?? null;
    },
    did: (done: Done, picks: number) => {
      beat = toldBeat(beat, ruler, placeAt(picks), done);
      if (done.kind === 'measured' && beat.jump !== null) saidAt.push(picks);
    },
  };
  const { lengths, jumpAt: jump } = weavePiece(weaver, chance, loom, `${seed}`);
  const end = lengths[yarns.length] ?? 0;
  const answers = then.map((known, i): Answer => {
    const at = (pick: number) => lengthAt(known, ruler, placeAt(pick));
    const pick = stops[i] ?? 0;
    const earlier = Math.round(pick * chance.between([0.1, 0.95]));
    const final = at(yarns.length);
    return {
      fell: holds(at(pick), lengths[pick] ?? 0),
      final: holds(final, end),
      woven: holds(at(earlier), lengths[earlier] ?? 0),
      finalError: Math.abs(final.mm - end),
      planError: Math.abs(planned - end),
    };
  });
  return { answers, jump, saidAt, picks: yarns.length };
}

/** Whether the intervals held in the pieces after the first of a warp: at the start and at half of each. */
export function laterPieces(carriedSd: number, seed: number, pieces: number) {
  const chance = chanceFrom(seed);
  const usual = chance.normal() * USUAL.spacing.sd;
  const ruler: Ruler = (from, to) => [(to - from) * 1.2, (to - from) * 0.8];
  const held: { readonly start: boolean; readonly half: boolean }[] = [];
  let beat = startBeat(2, PLANNED);
  for (let piece = 0; piece < pieces; piece++) {
    const at = (pick: number) => ({ piece, firstPick: 0, pick });
    const before = lengthAt(beat, ruler, at(400));
    let half: Beat | null = null;
    // The weaver's own beat is put in by stretching the spacings.
    const weaver = {
      ...USUAL,
      spacings: [2 * (1 + usual)],
      spacing: { sd: carriedSd, most: 0.15 },
    };
    const loom = {
      about: 800,
      next: (picks: number) => {
        if (picks === 200) half = beat;
        return picks < 400 ? 0 : null;
      },
      did: (done: Done, picks: number) => {
        beat = toldBeat(beat, ruler, at(picks), done);
      },
    };
    const { lengths } = weavePiece(weaver, chance, loom, `${piece}`);
    const end = lengths[400] ?? 0;
    if (piece > 0 && half !== null)
      held.push({ start: holds(before, end), half: holds(lengthAt(half, ruler, at(400)), end) });
  }
  return held;
}

export const usualLength = (chance: Chance): number => chance.between([500, 1200]);

export function trialsOf(
  weaver: Weaver,
  weavers: number,
  length = usualLength,
  firstSeed = 1,
): readonly Trial[] {
  return Array.from({ length: weavers }, (_, i) => trialOf(weaver, firstSeed + i, length));
}

/** Shares of intervals that held, at each quarter. */
export function coverageOf(trials: readonly Trial[], what: 'fell' | 'final' | 'woven') {
  return QUARTERS.map(
    (_, i) => trials.filter(({ answers }) => answers[i]?.[what]).length / trials.length,
  );
}

/** Mean error of the forecast of the final length at half-way, and of the plan, mm. */
export function halfwayErrors(trials: readonly Trial[]) {
  const mean = (of: (answer: Answer) => number) =>
    sum(trials.map(({ answers }) => (answers[1] ? of(answers[1]) : Number.NaN))) / trials.length;
  return { forecast: mean((it) => it.finalError), plan: mean((it) => it.planError) };
}

/** Jumps in the first seven tenths of a piece, how many of them were said later on, and what was said without one. */
export function jumpsIn(trials: readonly Trial[]) {
  const jumped = trials.filter(({ jump, picks }) => jump !== null && jump < 0.7 * picks);
  const found = jumped.filter(({ jump, saidAt }) => saidAt.some((at) => at > (jump ?? 0)));
  const calm = trials.filter(({ jump }) => jump === null);
  const alarms = sum(calm.map(({ saidAt }) => saidAt.length));
  return { jumped: jumped.length, found: found.length, calm: calm.length, alarms };
}

interface Setting {
  readonly name: string;
  readonly weaver: Weaver;
  readonly length?: (chance: Chance) => number;
}

const other = (name: string, change: Partial<Weaver>): Setting => ({
  name,
  weaver: { ...USUAL, ...change },
});

const about = (name: string, from: number, to: number): Setting => ({
  name,
  weaver: USUAL,
  length: (chance) => chance.between([from, to]),
});

const INCH = 25.4;

/** The usual weavers, and all others they were tried beside. */
export const SETTINGS: readonly Setting[] = [
  other('usual', {}),
  other('spacing sd 2 %', { spacing: { sd: 0.02, most: 0.15 } }),
  other('spacing sd 3 %', { spacing: { sd: 0.03, most: 0.15 } }),
  other('spacing sd 9 %', { spacing: { sd: 0.09, most: 0.15 } }),
  other('spacing sd 10 %, up to 25 %', { spacing: { sd: 0.1, most: 0.25 } }),
  other('no drift', { drift: 0 }),
  other('drift × 0.5', { drift: 0.0075 }),
  other('drift × 1.5', { drift: 0.0225 }),
  other('drift × 3', { drift: 0.045 }),
  other('no jumps', { jumps: { share: 0, size: 0.05 } }),
  other('jumps in 10 %', { jumps: { share: 0.1, size: 0.05 } }),
  other('jumps in 30 %', { jumps: { share: 0.3, size: 0.05 } }),
  other('jumps in all', { jumps: { share: 1, size: 0.05 } }),
  other('jumps of 2.5 %', { jumps: { share: 0.2, size: 0.025 } }),
  other('jumps of 7.5 %', { jumps: { share: 0.2, size: 0.075 } }),
  other('jumps of 10 %', { jumps: { share: 0.2, size: 0.1 } }),
  other('read every 3 cm', { every: [25, 35] }),
  other('read every 2.5 to 5 cm', { every: [25, 50] }),
  other('read every 7.5 to 15 cm', { every: [75, 150] }),
  other('read every 25 cm', { every: [225, 275] }),
  other('noise × 0.5', { noise: 0.75 }),
  other('noise × 1.5', { noise: 2.25 }),
  other('noise × 2', { noise: 3 }),
  other('not rounded', { rounding: 0 }),
  other('rounded to mm', { rounding: 1 }),
  other('rounded to 1/16 in', { rounding: INCH / 16 }),
  other('rounded to 1/4 in', { rounding: INCH / 4 }),
  other('rounded to cm', { rounding: 10 }),
  other('rounded to 1/2 in', { rounding: INCH / 2 }),
  other('no pins', { fromPins: 0 }),
  other('a quarter from pins', { fromPins: 0.25 }),
  other('three quarters from pins', { fromPins: 0.75 }),
  other('all from pins', { fromPins: 1 }),
  other('exact pins', { pinError: 0 }),
  other('pins 2 mm off', { pinError: 2 }),
  other('a pin every 5 cm', { pinEvery: [40, 60] }),
  other('none misread', { gross: { share: 0, off: [10, 50] } }),
  other('1.5 % misread', { gross: { share: 0.015, off: [10, 50] } }),
  other('5 % misread', { gross: { share: 0.05, off: [10, 50] } }),
  other('misread by 5 to 25 mm', { gross: { share: 0.01, off: [5, 25] } }),
  other('yarns apart by 2 % (sd)', { yarnSd: 0.02 }),
  other('yarns apart by 4 % (sd)', { yarnSd: 0.04 }),
  other('three yarns apart by 4 %', { yarnSd: 0.04, spacings: [2.1, 1.7, 1.2] }),
  other('all eased', { eases: { share: 0.02, readings: 1 } }),
  other('half eased, by 3 %', { eases: { share: 0.03, readings: 0.5 } }),
  about('pieces of 30 cm', 250, 350),
  about('pieces of 2.5 m', 2300, 2700),
];
