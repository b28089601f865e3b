/** What may be shown a frame later than the rest. */
import { useEffect, useState } from 'preact/hooks';

/** `now`, as soon as the frame that first had it is painted. */
export function useBehind<T extends object>(now: T): T {
  const [shown, show] = useState(now);
  useEffect(() => show(now), [now]);
  return shown;
}
