/** Weft orders made from the warp order: as drawn in, pick for end, and squared. */
import { washedBeat, washedSett } from '../measure/clothState.ts';
import { totalOf } from '../measure/runs.ts';
import { endsPerMm, sharesOf, warpRuns } from '../plan/geometry.ts';
import type { Block, Letter, Plan, Stripe } from '../plan/plan.ts';

/**
 * The weft order that copies the warp order pick for end, unscaled: as the warp is drawn in, so it
 * is woven. Stripe kinds become block kinds; the picks, merged, are the ends, merged.
 */
export function asDrawnIn(plan: Plan): readonly Block[] {
  return blocksFrom(plan.warp.order, { picksFor: (ends) => ends, scale: () => 1 });
}

/**
 * The same, scaled so that the washed cloth has its stripes as long as they are wide: every stripe
 * to whole picks, and where those stray, alternations and repeats to whole turns that end as before.
 */
export function squared(plan: Plan): readonly Block[] {
  const shares = sharesOf(plan);
  const washedEnds = washedSett(endsPerMm(plan.loom), shares);
  const scale = (letter: Letter) => {
    const yarn = plan.yarns.find((it) => it.letter === letter);
    const spacing = yarn?.pickSpacing ?? plan.weaving.pickSpacing;
    return washedBeat(1 / spacing, shares) / washedEnds;
  };
  return blocksFrom(plan.warp.order, {
    picksFor: (ends, letter) => Math.max(1, Math.round(ends * scale(letter))),
    scale,
  });
}

interface Scaling {
  readonly picksFor: (ends: number, letter: Letter) => number;
  /** Picks an end stands for, before rounding. */
  readonly scale: (letter: Letter) => number;
}

function blocksFrom(order: readonly Stripe[], scaling: Scaling): readonly Block[] {
  return order.flatMap((stripe) => blockFrom(stripe, scaling));
}

function blockFrom(stripe: Stripe, scaling: Scaling): readonly Block[] {
  switch (stripe.kind) {
    case 'solid':
      return [solid(stripe.yarn, scaling.picksFor(stripe.ends, stripe.yarn))];
    case 'alternation':
      return alternationFrom(stripe, scaling);
    case 'repeat': {
      const of = blocksFrom(stripe.of, scaling);
      const once = stretch(warpRuns(stripe.of), scaling);
      return [{ kind: 'repeat', times: nearestTurns(stripe.times, once, 1), of }];
    }
    case 'mirror':
      return [{ kind: 'mirror', centre: stripe.centre, of: blocksFrom(stripe.of, scaling) }];
  }
}

function solid(yarn: Letter, picks: number): Block {
  return { kind: 'solid', yarn, extent: { kind: 'picks', picks } };
}

type AlternationStripe = Extract<Stripe, { kind: 'alternation' }>;

/**
 * In a weft the turns of an alternation must be told apart; ends need not be. A cycle with equal
 * neighbours is written out, its whole cycles as a repeat.
 */
function alternationFrom(stripe: AlternationStripe, scaling: Scaling): readonly Block[] {
  const { cycle } = stripe;
  const each = stretch(
    cycle.map(({ yarn, ends }) => ({ of: yarn, count: ends })),
    scaling,
  );
  const turns = nearestTurns(stripe.turns, each, cycle.length);
  const woven = cycle.map(({ yarn, ends }) => ({ yarn, picks: scaling.picksFor(ends, yarn) }));
  const first = woven[0];
  const melts = woven.some((turn, i) => turn.yarn === woven[(i + 1) % woven.length]?.yarn);
  if (first === undefined) return [];
  if (!melts) {
    const extent = { kind: 'turns', turns } as const;
    return [{ kind: 'alternation', cycle: woven, path: 'round', opens: first.yarn, extent }];
  }
  const whole = Math.floor(turns / woven.length);
  const of = woven.map((turn) => solid(turn.yarn, turn.picks));
  const repeat: readonly Block[] = whole === 0 ? [] : [{ kind: 'repeat', times: whole, of }];
  return [...repeat, ...of.slice(0, turns % woven.length)];
}

/** How much longer a stretch wants to be than whole picks make it: 1 where they are exact. */
function stretch(
  runs: readonly { readonly of: Letter; readonly count: number }[],
  { picksFor, scale }: Scaling,
): number {
  const wanted = totalOf(runs.map(({ of, count }) => ({ of, count: count * scale(of) })));
  const woven = totalOf(runs.map(({ of, count }) => ({ of, count: picksFor(count, of) })));
  return wanted / woven;
}

/** The number of turns nearest `turns × stretch` that differs from `turns` by whole periods. */
function nearestTurns(turns: number, stretched: number, period: number): number {
  const more = Math.round((turns * (stretched - 1)) / period);
  const fewest = 1 - Math.ceil(turns / period);
  return turns + period * Math.max(more, fewest);
}
