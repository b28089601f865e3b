/** What is left of warp and yarn, kept up with every tap; loaded after the bench itself. */
import { computed } from '@preact/signals';
import { pace } from '../core/bench/left/pace.ts';
import { tallyWeft } from '../core/bench/left/weftTally.ts';
import { furtherLikeThis, standingOf } from '../core/bench/standing.ts';
import { session } from './state.ts';

const course = computed(() => session.value?.progress.course ?? null);
/** Counted anew only when the course changes, not with every pick. */
export const tally = computed(() => (course.value === null ? null : tallyWeft(course.value)));

export const standing = computed(() => {
  const now = session.value?.progress;
  return now === undefined || tally.value === null ? null : standingOf(now, tally.value);
});

export const further = computed(() => {
  const now = session.value?.progress;
  return now === undefined ? null : furtherLikeThis(now);
});

/** Asked when a sheet wants it: it reads the whole log. */
export const paceNow = () => pace(session.peek()?.log ?? []);
