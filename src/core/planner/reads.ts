/**
 * Will it read? Whether two yarns that take turns can be told apart in the cloth (design §4).
 *
 * This module loads a colour library: the bench does without it.
 */

import { washedBeat, washedSett } from '../measure/clothState.ts';
import type { Lab } from '../measure/colour.ts';
import { ciede2000, labOf } from '../measure/colour.ts';
import type { Mm } from '../measure/length.ts';
import { firstAlike } from '../plan/alike.ts';
import { periodOf, yarnIndex } from '../plan/blockTurns.ts';
import { endsPerMm, sharesOf } from '../plan/geometry.ts';
import type { Block, Letter, Plan, Stripe } from '../plan/plan.ts';
import { remembering } from '../plan/remembering.ts';

export const READING_VERDICTS = ['clear', 'soft', 'vanishes'] as const;
export type ReadingVerdict = (typeof READING_VERDICTS)[number];

/** Two neighbours in an alternation, and how well they can be told apart. */
export interface Reading {
  readonly where: 'warp' | 'weft';
  /** Piece of a weft; null for the warp. */
  readonly piece: number | null;
  /** Path of the alternation in the plan, such as `pieces[0].weft[1]` or `warp.order[2]`. */
  readonly path: string;
  /** Yarn indices, the lower one first. */
  readonly yarns: readonly [number, number];
  /** Colour difference by CIEDE2000. */
  readonly difference: number;
  /** Difference of CIELAB lightness, 0 to 100. */
  readonly lightness: number;
  /** Washed width of the narrower of the two stripes. */
  readonly narrowest: Mm;
  readonly verdict: ReadingVerdict;
}

/**
 * Below `vanishes` two yarns look like one, below `soft` the pattern is faint. Ours, by looking at
 * cloth on a screen; no source. CIEDE2000 counts hue and depth of colour as well, lightness alone
 * decides for fine stripes: the eye sees fine detail by light and dark, hardly by hue.
 */
export const READING_LIMITS = {
  difference: { vanishes: 8, soft: 16 },
  lightness: { vanishes: 6, soft: 15 },
  /** Stripes narrower than this must differ in lightness, wider ones may do by colour alone. */
  fine: 8,
} as const;

/** How well two colours read beside each other in stripes of a washed width. */
export function readingOf(one: Lab, other: Lab, narrowest: Mm): ReadingVerdict {
  return verdictFor(contrastOf(one, other), narrowest);
}

type Contrast = Pick<Reading, 'difference' | 'lightness'>;

function contrastOf(one: Lab, other: Lab): Contrast {
  return { difference: ciede2000(one, other), lightness: Math.abs(one.l - other.l) };
}

function verdictFor(contrast: Contrast, narrowest: Mm): ReadingVerdict {
  const { difference, lightness, fine } = READING_LIMITS;
  const byColour = verdictOf(contrast.difference, difference);
  if (narrowest >= fine) return byColour;
  const byLight = verdictOf(contrast.lightness, lightness);
  return READING_VERDICTS.indexOf(byLight) > READING_VERDICTS.indexOf(byColour)
    ? byLight
    : byColour;
}

function verdictOf(got: number, limits: { readonly vanishes: number; readonly soft: number }) {
  if (got < limits.vanishes) return 'vanishes';
  return got < limits.soft ? 'soft' : 'clear';
}

/**
 * Every pair of neighbours in an alternation of warp or weft, and in a repeat of solids, which is one
 * written out; each pair once an alternation. Throws when a colour is not `#rrggbb`.
 */
export function readingsOf(plan: Plan): readonly Reading[] {
  const { loom, yarns, warp, weaving, allowances } = plan;
  return [
    ...inWarp(warp.order, loom, yarns, allowances),
    ...firstAlike(plan.pieces).flatMap((like, piece) =>
      inWeft(like.weft, yarns, weaving, allowances).map((it) => ({
        ...it,
        piece,
        path: `pieces[${piece}].weft${it.path}`,
      })),
    ),
  ];
}

type Yarns = Plan['yarns'];

const inWarp = remembering(
  (
    order: readonly Stripe[],
    loom: Plan['loom'],
    yarns: Yarns,
    allowances: Plan['allowances'],
  ): readonly Reading[] => {
    const washedEnd = 1 / washedSett(endsPerMm(loom), sharesOf({ allowances }));
    return warpTurns(order, 'warp.order', washedEnd).flatMap((it) => readingsIn(yarns, it));
  },
);

/** The paths begin where the weft does, the piece is not known here. */
const inWeft = remembering(
  (
    order: readonly Block[],
    yarns: Yarns,
    weaving: Plan['weaving'],
    allowances: Plan['allowances'],
  ): readonly Reading[] => {
    const shares = sharesOf({ allowances });
    const washedPick = (letter: Letter, ofBlock: Mm | undefined) => {
      const own = yarns[yarnIndex({ yarns }, letter)]?.pickSpacing;
      return 1 / washedBeat(1 / (ofBlock ?? own ?? weaving.pickSpacing), shares);
    };
    const where = { where: 'weft', piece: null } as const;
    return weftTurns(yarns, order, '', washedPick).flatMap((it) =>
      readingsIn(yarns, { ...it, ...where }),
    );
  },
);

const labsOf = remembering((yarns: Yarns) => yarns.map((yarn) => labOf(yarn.colour)));

/** How two yarns of the plan differ, by their indices; null where it has not got both. */
function contrastIn(yarns: Yarns, low: number, high: number): Contrast | null {
  const labs = labsOf(yarns);
  const [one, other] = [labs[low], labs[high]];
  if (one === undefined || other === undefined) return null;
  const known = contrastsOf(yarns);
  const key = `${low} ${high}`;
  const contrast = known.get(key) ?? contrastOf(one, other);
  known.set(key, contrast);
  return contrast;
}

/** Those asked for so far: the same two yarns take turns in many blocks, and with every edit. */
const contrastsOf = remembering((_: Yarns) => new Map<string, Contrast>());

interface Turns extends Pick<Reading, 'where' | 'piece' | 'path'> {
  /** One period, going round. */
  readonly turns: readonly { readonly yarn: Letter; readonly width: Mm }[];
}

function readingsIn(yarns: Yarns, { turns, ...at }: Turns): readonly Reading[] {
  const found = new Map<string, Reading>();
  for (const [i, turn] of turns.entries()) {
    const next = turns[(i + 1) % turns.length];
    if (next === undefined || next.yarn === turn.yarn) continue;
    const [low = 0, high = 0] = [turn.yarn, next.yarn]
      .map((letter) => yarnIndex({ yarns }, letter))
      .sort((a, b) => a - b);
    const contrast = contrastIn(yarns, low, high);
    if (contrast === null) continue;
    const before = found.get(`${low} ${high}`)?.narrowest ?? Number.POSITIVE_INFINITY;
    const narrowest = Math.min(before, turn.width, next.width);
    const verdict = verdictFor(contrast, narrowest);
    found.set(`${low} ${high}`, { ...at, yarns: [low, high], ...contrast, narrowest, verdict });
  }
  return [...found.values()];
}

function warpTurns(order: readonly Stripe[], path: string, end: Mm): readonly Turns[] {
  return order.flatMap((stripe, i): readonly Turns[] => {
    const at = { where: 'warp', piece: null, path: `${path}[${i}]` } as const;
    const wide = (turns: readonly { readonly yarn: Letter; readonly ends: number }[]) =>
      turns.map(({ yarn, ends }) => ({ yarn, width: ends * end }));
    if (stripe.kind === 'solid') return [];
    if (stripe.kind === 'alternation') return [{ ...at, turns: wide(stripe.cycle) }];
    const solids = stripe.of.filter((it) => it.kind === 'solid');
    const alternates = stripe.kind === 'repeat' && solids.length === stripe.of.length;
    if (alternates && stripe.times > 1) return [{ ...at, turns: wide(solids) }];
    return warpTurns(stripe.of, `${at.path}.of`, end);
  });
}

type WidthOfPick = (letter: Letter, ofBlock: Mm | undefined) => Mm;
type WeftTurns = Pick<Turns, 'path' | 'turns'>;

function weftTurns(
  of: Yarns,
  order: readonly Block[],
  path: string,
  pick: WidthOfPick,
): readonly WeftTurns[] {
  return order.flatMap((block, i): readonly WeftTurns[] => {
    const at = `${path}[${i}]`;
    if (block.kind === 'solid' || block.kind === 'free') return [];
    if (block.kind === 'alternation') {
      const { yarns, picks } = periodOf({ yarns: of }, block);
      const turns = yarns.map((yarn, k) => {
        const letter = of[yarn]?.letter ?? '';
        return { yarn: letter, width: (picks[k] ?? 0) * pick(letter, block.pickSpacing) };
      });
      return [{ path: at, turns }];
    }
    const solids = block.of.filter((it) => it.kind === 'solid');
    if (block.kind === 'repeat' && block.times > 1 && solids.length === block.of.length) {
      const turns = solids.map(({ yarn, extent, pickSpacing }) => ({
        yarn,
        width:
          extent.kind === 'picks'
            ? extent.picks * pick(yarn, pickSpacing)
            : extent.loomLength * pick(yarn, 1),
      }));
      return [{ path: at, turns }];
    }
    return weftTurns(of, block.of, `${at}.of`, pick);
  });
}
