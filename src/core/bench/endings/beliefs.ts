/**
 * Believed lengths of cloth to come, for thousands of stops at the price of a few questions: asking
 * the beat's estimate costs tenths of a millisecond.
 *
 * The middle is the length at the fell and each yarn's own rate, which is asked exactly. How wide the
 * interval is depends on how much is woven till then; the square of a half-width is, with a beat that
 * drifts as it does, a cubic of that length (doubt about the fell and the spacing, and drift). So it
 * is asked at a few lengths, and a cubic through the four nearest says it in between.
 */
import type { Mm } from '../../measure/length.ts';
import { lastAtOrBefore } from '../search.ts';
import type { EndingContext, Interval } from './context.ts';

export interface Beliefs {
  /** Loom length of the piece at the fell. */
  readonly here: Interval;
  /** Real millimetres for a planned one, by yarn index, from the fell on. */
  readonly rates: readonly number[];
  /** Loom length of the piece after so many planned millimetres more, by yarn index. */
  readonly ahead: (planned: readonly Mm[]) => Interval;
}

/** Beliefs from the fell on, for about `most` millimetres; `usual` is the weft to come, by yarn index. */
export function beliefsFrom(context: EndingContext, usual: readonly Mm[], most: Mm): Beliefs {
  const here = context.believeAhead(usual.map(() => 0));
  const rates = usual.map((_, yarn) => rateOf(context, usual, yarn, here.mm));
  const reckon = (planned: readonly Mm[]) => {
    let length = 0;
    for (let yarn = 0; yarn < planned.length; yarn++)
      length += (planned[yarn] ?? 0) * (rates[yarn] ?? 1);
    return length;
  };
  let table: Table | null = null;
  const ahead = (planned: readonly Mm[]): Interval => {
    const length = reckon(planned);
    if (length > most) return context.believeAhead(planned);
    table ??= tableOf(context, usual, reckon(usual), { here: here.mm, most });
    const { over, below, above } = lookUp(table, length);
    const mm = here.mm + length + over;
    return { mm, low: mm - below, high: mm + above };
  };
  return { here, rates, ahead };
}

/** Long enough for rounding not to matter, short enough to stay within the cloth the belief is made for. */
const PROBE: Mm = 100;

function rateOf(
  { believeAhead }: EndingContext,
  usual: readonly Mm[],
  yarn: number,
  nought: Mm,
): number {
  const probed = believeAhead(usual.map((_, i) => (i === yarn ? PROBE : 0))).mm;
  return Math.max(0, probed - nought) / PROBE;
}

/** At some lengths, ascending from 0: by how much the middle is off, and the squares of the half-widths. */
interface Table {
  readonly length: readonly Mm[];
  readonly over: readonly Mm[];
  readonly below: readonly number[];
  readonly above: readonly number[];
}

/** Denser near the fell, where most stops are. */
const KNOTS = 16;

function tableOf(
  { believeAhead }: EndingContext,
  usual: readonly Mm[],
  reckoned: Mm,
  { here, most }: { readonly here: Mm; readonly most: Mm },
): Table {
  const length = Array.from({ length: KNOTS + 1 }, (_, k) => most * (k / KNOTS) ** 2);
  const asked = length.map((mm) =>
    believeAhead(usual.map((it) => (reckoned > 0 ? (it * mm) / reckoned : 0))),
  );
  return {
    length,
    over: asked.map((it, k) => it.mm - here - (length[k] ?? 0)),
    below: asked.map((it) => (it.mm - it.low) ** 2),
    above: asked.map((it) => (it.high - it.mm) ** 2),
  };
}

function lookUp({ length, over, below, above }: Table, at: Mm) {
  const k = lastAtOrBefore(length, length.length, at);
  const first = Math.max(0, Math.min(k - 1, length.length - 4));
  const sums = { over: 0, below: 0, above: 0 };
  for (let i = first; i < first + 4; i++) {
    const weight = weightOf(length, first, i, at);
    sums.over += weight * (over[i] ?? 0);
    sums.below += weight * (below[i] ?? 0);
    sums.above += weight * (above[i] ?? 0);
  }
  const half = (square: number) => Math.sqrt(Math.max(0, square));
  return { over: sums.over, below: half(sums.below), above: half(sums.above) };
}

/** Lagrange: what one of four knots counts for at a length between them. */
function weightOf(length: readonly Mm[], first: number, knot: number, at: Mm): number {
  const own = length[knot] ?? 0;
  let weight = 1;
  for (let j = first; j < first + 4; j++) {
    const other = length[j] ?? 0;
    if (j !== knot) weight *= (at - other) / (own - other);
  }
  return weight;
}
