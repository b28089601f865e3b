/** What is measured at the loom: pins, readings, yarn on the scale. */
import type { Reading } from '../core/bench/beat/marks.ts';
import type { Grams } from '../core/measure/mass.ts';
import type { Yarn } from '../core/plan/plan.ts';
import { happen, newId } from './actions.ts';
import { say } from './messages.ts';
import { notice, session } from './state.ts';

/** A pin goes into the cloth at the fell, to measure from. */
export function putPin(): void {
  const at = session.peek();
  if (at === null) return;
  if (at.progress.pick === 0) {
    notice.value = say.noClothToPin;
    return;
  }
  happen({ kind: 'pinned', pin: newId() });
  notice.value = say.pinned;
}

/** The fell as it was measured at the loom. */
export function takeReading(reading: Omit<Reading, 'reading'>): void {
  const { mm: loomLength, from, tension } = reading;
  happen({ kind: 'measured', reading: newId(), loomLength, from, tension });
}

/** Yarn weighed at the loom; where it is one of the shelf, the shelf learns of it too. */
export function weighYarn({ letter, shelf }: Yarn, grams: Grams, tare: Grams): void {
  happen({ kind: 'weighed', yarn: letter, grams, tare });
  if (shelf !== undefined)
    void import('./shelf.ts').then((it) => it.weighById(shelf, { grams, tare }));
}
