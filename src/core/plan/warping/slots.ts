/**
 * Direct warping slot by slot. A loop is two ends through one slot; afterwards one of them stays and
 * the other goes to the slot's hole. So the ends are taken two by two, whether end 1 lies in a slot
 * (slot 1 and the hole after it) or in a hole (the hole before slot 1, and slot 1). An odd warp
 * leaves a single end at one edge: at the edge that makes for fewer ties, else for fewer swaps, else
 * at the last end. With several ends a dent, a slot and its hole hold so many each, and loops too.
 */
import { countsBy, expandRuns } from '../../measure/runs.ts';
import { warpRuns } from '../geometry.ts';
import type { Letter, Plan, Side } from '../plan.ts';
import type { SlotPlan, Viewpoint } from './list.ts';

export interface DirectSlots {
  readonly slots: readonly SlotPlan[];
  /** On which side of its slot a hole lies. */
  readonly holeSide: Side;
  /** Whether the warp's first end is the single one, in the plan's own order. */
  readonly singleFirst: boolean;
}

/** What slot and hole shall hold in the end, in the order of the warp. */
interface Wanted {
  readonly firstEnd: number;
  readonly ends: readonly Letter[];
  readonly stays: readonly Letter[];
  readonly moves: readonly Letter[];
}

/** The slots of a plan from left to right, as seen from `viewpoint`. The same loops from both sides. */
export function directSlots(plan: Plan, viewpoint: Viewpoint): DirectSlots {
  const ends = expandRuns(warpRuns(plan.warp.order));
  const usual = slotsFrom(plan, ends, 0);
  const odd = plan.loom.endsPerDent === 1 && ends.length % 2 === 1;
  const best = odd ? lessWork(usual, slotsFrom(plan, ends, 1)) : usual;
  return viewpoint === plan.warp.viewpoint ? best : turnedRound(best);
}

/** `lead`: ends before the first whole slot, 0 or 1. */
function slotsFrom(plan: Plan, ends: readonly Letter[], lead: 0 | 1): DirectSlots {
  const each = plan.loom.endsPerDent;
  const slotFirst = plan.warp.firstEnd !== 'hole';
  const wanted: Wanted[] = [];
  if (lead === 1) wanted.push(wantedOf(ends.slice(0, 1), 0, each, slotFirst));
  // After a single end in a slot the next end lies in the hole: the other way round.
  const pairsSlotFirst = slotFirst === (lead === 0);
  for (let end = lead; end < ends.length; end += 2 * each) {
    wanted.push(wantedOf(ends.slice(end, end + 2 * each), end, each, pairsSlotFirst));
  }
  return {
    slots: looped(wanted),
    holeSide: pairsSlotFirst ? 'right' : 'left',
    singleFirst: lead === 1,
  };
}

function wantedOf(
  ends: readonly Letter[],
  firstEnd: number,
  each: number,
  slotFirst: boolean,
): Wanted {
  const [first, second] = [ends.slice(0, each), ends.slice(each)];
  return slotFirst
    ? { firstEnd, ends, stays: first, moves: second }
    : { firstEnd, ends, stays: second, moves: first };
}

function lessWork(a: DirectSlots, b: DirectSlots): DirectSlots {
  const ties = (it: DirectSlots) => it.slots.reduce((sum, slot) => sum + slot.ties.length, 0);
  const swaps = (it: DirectSlots) => it.slots.filter((slot) => slot.swap !== null).length;
  return (ties(b) - ties(a) || swaps(b) - swaps(a)) < 0 ? b : a;
}

/** Loops for every slot; neighbours left with odd ends of the same two colours help each other out. */
function looped(wanted: readonly Wanted[]): readonly SlotPlan[] {
  const slots: SlotPlan[] = [];
  for (let k = 0; k < wanted.length; k++) {
    const [here, next] = [wanted[k], wanted[k + 1]];
    if (here === undefined) break;
    const exchange = next === undefined ? null : exchangeOf(oddEnds(here), oddEnds(next));
    if (next === undefined || exchange === null) {
      slots.push(withTies(here));
      continue;
    }
    const { gives, takes } = exchange;
    slots.push(
      swapping(here, { with: 'next', gives, takes }),
      swapping(next, { with: 'previous', gives: takes, takes: gives }),
    );
    k++;
  }
  return slots;
}

/** Ends that find no partner of their colour in their own slot, in the order of the warp. */
function oddEnds({ ends }: Wanted): readonly Letter[] {
  return [...countsBy(ends.map((of) => ({ of, count: 1 })))]
    .filter(([, count]) => count % 2 === 1)
    .map(([yarn]) => yarn);
}

/** What the first of two slots gives and takes, or null when a swap would leave as many odd ends. */
function exchangeOf(
  here: readonly Letter[],
  next: readonly Letter[],
): { readonly gives: Letter; readonly takes: Letter } | null {
  const [a, b] = here;
  const [c, d] = next;
  if (a === undefined || c === undefined || here.length + next.length > 4) return null;
  if (b !== undefined && d !== undefined) {
    return next.includes(a) && next.includes(b) ? { gives: a, takes: b } : null;
  }
  // One of the two holds a single end: the colour they share makes a loop where two ends are odd.
  if (b !== undefined && here.includes(c)) return { gives: c, takes: c === a ? b : a };
  if (d !== undefined && next.includes(a)) return { gives: a === c ? d : c, takes: a };
  return null;
}

function swapping(it: Wanted, swap: NonNullable<SlotPlan['swap']>): SlotPlan {
  // Before the swap the slot holds what it gives and not yet what it takes.
  const ends = [...it.ends];
  ends[ends.indexOf(swap.takes)] = swap.gives;
  return { ...withTies({ ...it, ends }), swap };
}

function withTies({ ends, firstEnd, stays, moves }: Wanted): SlotPlan {
  const odd = oddEnds({ ends, firstEnd, stays, moves });
  const counts = countsBy(ends.map((of) => ({ of, count: 1 })));
  const loops = [...counts].flatMap(([yarn, count]) =>
    Array.from({ length: Math.floor(count / 2) }, () => yarn),
  );
  const ties = Array.from(
    { length: Math.floor(odd.length / 2) },
    (_, i) => [odd[2 * i] ?? '', odd[2 * i + 1] ?? ''] as const,
  );
  const single = odd.length % 2 === 1 ? (odd[odd.length - 1] ?? null) : null;
  return { stays, moves, loops, ties, single, swap: null, firstEnd };
}

/** The same slots from the other side of the heddle. */
function turnedRound(it: DirectSlots): DirectSlots {
  return {
    ...it,
    slots: it.slots.toReversed().map(slotTurnedRound),
    holeSide: it.holeSide === 'left' ? 'right' : 'left',
  };
}

function slotTurnedRound(slot: SlotPlan): SlotPlan {
  const { swap } = slot;
  return {
    ...slot,
    stays: slot.stays.toReversed(),
    moves: slot.moves.toReversed(),
    loops: slot.loops.toReversed(),
    ties: slot.ties.toReversed().map(([a, b]) => [b, a] as const),
    swap: swap === null ? null : { ...swap, with: swap.with === 'next' ? 'previous' : 'next' },
  };
}
