/** What is left of warp and yarn, kept up with every tap; loaded after the bench itself. */
import { computed, effect, signal } from '@preact/signals';
import { pace } from '../core/bench/left/pace.ts';
import { tallyWeft } from '../core/bench/left/weftTally.ts';
import { furtherLikeThis, type Standing, standingOf } from '../core/bench/standing.ts';
import { whenQuiet } from './device/quiet.ts';
import { session } from './state.ts';

const course = computed(() => session.value?.progress.course ?? null);
/** Counted anew only when the course changes, not with every pick. */
export const tally = computed(() => (course.value === null ? null : tallyWeft(course.value)));

/** Milliseconds from a tap to the reckoning, at least: the pick is painted and saved before it. */
const AFTER_MS = 60;

/** Follows the taps at a small distance, and once for taps that come together. */
export const standing = signal<Standing | null>(null);
let waiting = false;
let warp: string | null = null;

effect(() => {
  const id = session.value?.warp.id ?? null;
  if (id === null || id !== warp) reckon();
  else if (!waiting) {
    waiting = true;
    setTimeout(() => whenQuiet(reckon), AFTER_MS);
  }
});

function reckon(): void {
  waiting = false;
  warp = session.peek()?.warp.id ?? null;
  const now = session.peek()?.progress;
  const counted = tally.peek();
  standing.value = now === undefined || counted === null ? null : standingOf(now, counted);
}

export const further = computed(() => {
  const now = session.value?.progress;
  return now === undefined ? null : furtherLikeThis(now);
});

/** Asked when a sheet wants it: it reads the whole log. */
export const paceNow = () => pace(session.peek()?.log ?? []);
