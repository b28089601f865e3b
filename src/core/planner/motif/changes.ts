/** Motifs made from motifs: mirrored, in other yarns, at another beat. */

import { recogniseBlocks } from '../../bench/byEye/recogniseBlocks.ts';
import type { Mm } from '../../measure/length.ts';
import { mergeRuns, type Runs } from '../../measure/runs.ts';
import { texOf, type YarnCount } from '../../measure/yarnCount.ts';
import { layWeft, turnOf } from '../../plan/blocks.ts';
import { endsPerMm } from '../../plan/geometry.ts';
import { type Motif, type MotifYarn, planOfMotif } from '../../plan/motif.ts';
import type { Block, Centre, Letter, Plan } from '../../plan/plan.ts';
import { resized } from './resize.ts';

/** The motif there and back; its last stripe once, or twice as long. */
export function mirroredMotif(motif: Motif, centre: Centre): Motif {
  const [only, ...others] = motif.blocks;
  // A mirror of a mirror by itself says nothing new.
  if (only?.kind === 'mirror' && others.length === 0) return motif;
  return { ...motif, blocks: [{ kind: 'mirror', centre, of: motif.blocks }] };
}

/** The stripes of a motif, as letters and picks. */
export function stripesOfMotif(motif: Motif): Runs<Letter> {
  const turns = layWeft(planOfMotif(motif), 0).flatMap((laid) =>
    Array.from({ length: laid.turns }, (_, k) => turnOf(laid, k)),
  );
  return mergeRuns(
    turns.map(({ yarn, picks }) => ({ of: motif.yarns[yarn]?.letter ?? '', count: picks })),
  );
}

/**
 * The blocks of a motif with other letters for its yarns. Where two of them become one, what melts
 * together is told anew; letters without an entry stay.
 */
export function blocksIn(motif: Motif, letters: ReadonlyMap<Letter, Letter>): readonly Block[] {
  const to = (letter: Letter) => letters.get(letter) ?? letter;
  const used = [...new Set(stripesOfMotif(motif).map((run) => run.of))];
  if (new Set(used.map(to)).size === used.length) return motif.blocks.map((it) => renamed(it, to));
  return recogniseBlocks(stripesOfMotif(motif).map(({ of, count }) => ({ of: to(of), count })));
}

function renamed(block: Block, to: (letter: Letter) => Letter): Block {
  switch (block.kind) {
    case 'repeat':
    case 'mirror':
      return { ...block, of: block.of.map((it) => renamed(it, to)) };
    case 'free':
      return block;
    case 'solid':
      return { ...withKeys(block, to), yarn: to(block.yarn) };
    case 'alternation': {
      const { closes, ...open } = withKeys(block, to);
      return {
        ...open,
        cycle: block.cycle.map((turn) => ({ ...turn, yarn: to(turn.yarn) })),
        opens: to(block.opens),
        ...(closes === undefined ? {} : { closes: to(closes) }),
      };
    }
  }
}

/** What a block says of single yarns, said of the others. */
function withKeys<B extends Extract<Block, { kind: 'solid' | 'alternation' }>>(
  block: B,
  to: (letter: Letter) => Letter,
): B {
  const keyed = <T>(by: { readonly [letter: Letter]: T }) =>
    Object.fromEntries(Object.entries(by).map(([letter, it]) => [to(letter), it]));
  return {
    ...block,
    ...(block.resting === undefined ? {} : { resting: keyed(block.resting) }),
    ...(block.starts === undefined ? {} : { starts: keyed(block.starts) }),
  };
}

/** What stays the same where a yarn or the beat changes. */
export type KeptBy = 'picks' | 'length';

/** Another yarn in the place of one, under its letter; the beat goes with the yarn. */
export function inYarn(motif: Motif, letter: Letter, yarn: Omit<MotifYarn, 'letter'>, by: KeptBy) {
  const yarns = motif.yarns.map((it) => (it.letter === letter ? { ...yarn, letter } : it));
  return retaken(motif, yarns, by);
}

/** Two yarns of a motif taking each other's place; the picks stay. */
export function swapped(motif: Motif, one: Letter, other: Letter): Motif {
  const letters = new Map([
    [one, other],
    [other, one],
  ]);
  return { ...motif, blocks: blocksIn(motif, letters) };
}

/** The motif at another distance from pick to pick, each yarn's in the same proportion. */
export function atBeat(motif: Motif, factor: number, by: KeptBy): Motif {
  const yarns = motif.yarns.map((it) => ({ ...it, pickSpacing: it.pickSpacing * factor }));
  return retaken(motif, yarns, by);
}

/** The motif at another sett: its picks lie closer as its ends do, and its warp keeps its ends. */
export function atSett(motif: Motif, endsPerMm: number, by: KeptBy): Motif {
  return onGround(motif, groundAtSett(motif, endsPerMm), new Map(), by);
}

/** What a motif is woven on: the yarns of a warp with their beat there, its order and its sett. */
export type Ground = Pick<Motif, 'yarns' | 'warp' | 'endsPerMm'>;

/** A plan as ground, with the distance from pick to pick each of its yarns has (mm). */
export function groundOf(plan: Plan, spacing: (letter: Letter) => Mm): Ground {
  const yarns = plan.yarns.map(({ onHand, resting, ...yarn }) => ({
    ...yarn,
    pickSpacing: spacing(yarn.letter),
  }));
  return { yarns, warp: plan.warp.order, endsPerMm: endsPerMm(plan.loom) };
}

/** The same warp at another sett, the beat in proportion to it. */
export function groundAtSett({ yarns, warp, endsPerMm }: Ground, sett: number): Ground {
  const factor = endsPerMm / sett;
  return {
    yarns: yarns.map((it) => ({ ...it, pickSpacing: it.pickSpacing * factor })),
    warp,
    endsPerMm: sett,
  };
}

/** The motif on another warp, in its letters and at its beat; letters without an entry stay. */
export function onGround(
  motif: Motif,
  ground: Ground,
  letters: ReadonlyMap<Letter, Letter>,
  by: KeptBy,
): Motif {
  const yarns = motif.yarns.map((it) => {
    const there = letters.get(it.letter) ?? it.letter;
    const pickSpacing = ground.yarns.find(({ letter }) => letter === there)?.pickSpacing;
    return { ...it, pickSpacing: pickSpacing ?? it.pickSpacing };
  });
  return { ...motif, ...ground, blocks: blocksIn(retaken(motif, yarns, by), letters) };
}

/** The letters of a motif that stand in its weft, in the order of its yarns. */
export function weftLetters(motif: Motif): readonly Letter[] {
  const worn = new Set(stripesOfMotif(motif).map((run) => run.of));
  return motif.yarns.map((it) => it.letter).filter((letter) => worn.has(letter));
}

/**
 * Distance from pick to pick a yarn of another count would have in the place of one, the beat being
 * as hard: threads are as thick as the root of their tex (Ashenhurst's rule, as for setts).
 */
export function spacingLike(yarn: MotifYarn, count: YarnCount): Mm {
  return yarn.pickSpacing * Math.sqrt(texOf(count) / texOf(yarn.count));
}

function retaken(motif: Motif, yarns: readonly MotifYarn[], by: KeptBy): Motif {
  const next = { ...motif, yarns };
  if (by === 'picks') return next;
  const spacing = (letter: Letter): Mm =>
    yarns.find((it) => it.letter === letter)?.pickSpacing ?? 1;
  return { ...next, blocks: resized(planOfMotif(motif), motif.blocks, spacing) };
}
