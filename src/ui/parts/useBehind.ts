/** What may be shown a frame later than the rest. */
import { useEffect, useState } from 'preact/hooks';
import { whenQuiet } from '../device/quiet.ts';

/** `now`, as soon as the frame that first had it is painted. */
export function useBehind<T extends object>(now: T): T {
  const [shown, show] = useState(now);
  useEffect(() => show(now), [now]);
  return shown;
}

/** Whether a frame was painted since the part that asks came, and the page was quiet after it. */
export function useIsSeen(): boolean {
  const [isSeen, see] = useState(false);
  useEffect(() => whenQuiet(() => see(true), SEEN_MS), []);
  return isSeen;
}

/** Milliseconds after the frame at most, however busy the page is. */
const SEEN_MS = 100;
