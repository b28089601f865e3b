/** What may be shown a frame later than the rest. */
import { useEffect, useState } from 'preact/hooks';

/** `now`, as soon as the frame that first had it is painted. */
export function useBehind<T extends object>(now: T): T {
  const [shown, show] = useState(now);
  useEffect(() => show(now), [now]);
  return shown;
}

/** Whether a frame was painted since the part that asks came. */
export function useIsSeen(): boolean {
  const [isSeen, see] = useState(false);
  useEffect(() => see(true), []);
  return isSeen;
}
