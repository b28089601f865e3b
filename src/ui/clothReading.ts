/** What the Measure screen does: each reading is an event; what the warp teaches is kept at once. */
import { computed } from '@preact/signals';
import type { ClothReadState, Happening } from '../core/bench/events.ts';
import { figuresOf, type Woven } from '../core/learn/figures.ts';
import { learntOf } from '../core/learn/learntWarp.ts';
import { loomLengthsOf } from '../core/learn/loomLengths.ts';
import { readingsOf } from '../core/learn/readings.ts';
import { happen, newId } from './actions.ts';
import { keepLearnt } from './learning.ts';
import { type Session, session } from './state.ts';

/** What the warp on the bench has to teach. */
export const woven = computed<Woven | null>(() => {
  const now = session.value;
  return now === null ? null : wovenOf(now);
});

export const figures = computed(() => (woven.value === null ? null : figuresOf(woven.value)));

export function wovenOf({ plan, progress, log }: Session): Woven {
  return {
    course: progress.course,
    picks: progress.pick,
    readings: readingsOf(log, plan.pieces.length),
    loomLengths: loomLengthsOf(progress),
  };
}

type Of<K extends Happening['kind']> = Extract<Happening, { kind: K }>;
type Unnamed<K extends Happening['kind']> = Omit<Of<K>, 'kind' | 'reading'>;

export function readCloth(piece: number, state: ClothReadState, what: ClothSizes): void {
  tell({ kind: 'clothRead', reading: newId(), piece, state, ...what });
}
export type ClothSizes = Omit<Unnamed<'clothRead'>, 'piece' | 'state'>;

export function readWarp(what: Unnamed<'warpRead'>): void {
  tell({ kind: 'warpRead', reading: newId(), ...what });
}

export function readEnd(what: Unnamed<'endRavelled'>): void {
  tell({ kind: 'endRavelled', reading: newId(), ...what });
}

/** Takes a reading out of everything that followed from it; the event that did can be undone. */
export function strike(reading: string): void {
  tell({ kind: 'readingStruck', reading });
}

export function learnFrom(piece: number, counts: 'in' | 'out'): void {
  tell({ kind: 'learntFrom', piece, counts });
}

function tell(happening: Happening): void {
  happen(happening);
  keepWhatItTaught();
}

/** A demo is invented: what is read of it stays with it. */
export function keepWhatItTaught(): void {
  const now = session.peek();
  if (now === null || now.warp.demo) return;
  keepLearnt(now.warp.id, learntOf(now.warp.id, wovenOf(now)));
}
