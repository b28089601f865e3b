/** The places a weaver wants to know of before beginning: where loops of one colour are not enough. */
import type { Letter } from '../plan.ts';
import type { OddPlace, SlotPlan } from './list.ts';
import type { MendAt } from './mend.ts';

/** From left to right; swaps of the same two colours that follow each other are one place. */
export function oddPlacesOf(slots: readonly SlotPlan[], mendAt: MendAt): readonly OddPlace[] {
  const places: OddPlace[] = [];
  slots.forEach((slot, k) => {
    for (const place of oddIn(slot, k, mendAt)) {
      const last = places[places.length - 1];
      if (last?.kind === 'swap' && place.kind === 'swap' && goesOn(last, place)) {
        places[places.length - 1] = { ...last, to: place.to };
      } else places.push(place);
    }
  });
  return places;
}

function oddIn(slot: SlotPlan, k: number, mendAt: MendAt): readonly OddPlace[] {
  const at = { from: k, to: k + 1 };
  const mend = mendAt(slot.firstEnd);
  return [
    ...(slot.swap?.with === 'next'
      ? [{ kind: 'swap' as const, from: k, to: k + 2, yarns: pair(slot.swap) }]
      : []),
    ...slot.ties.map((yarns) => ({ kind: 'tie' as const, ...at, yarns, mend })),
    ...(slot.single === null ? [] : [{ kind: 'single' as const, ...at, yarn: slot.single }]),
  ];
}

function pair({ gives, takes }: NonNullable<SlotPlan['swap']>): readonly [Letter, Letter] {
  return [gives, takes];
}

type SwapPlace = Extract<OddPlace, { kind: 'swap' }>;

function goesOn(last: SwapPlace, next: SwapPlace): boolean {
  return last.to === next.from && last.yarns.every((yarn) => next.yarns.includes(yarn));
}
