/** A component whose code is fetched when it is first shown, so that the bench starts with little. */
import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** Code nobody may have asked for yet: `afterStart.ts` fetches it all the same. */
export const later: (() => Promise<unknown>)[] = [];

/**
 * Shows nothing until its code is there: from the precache that is a matter of milliseconds. It is
 * fetched some time after the start in any case: another window may let a new version take over, and
 * that takes the files of this one away.
 */
export function lazily<P extends object>(
  load: () => Promise<ComponentType<P>>,
): (props: P) => preact.JSX.Element | null {
  let loaded: ComponentType<P> | null = null;
  later.push(load);
  return function Lazily(props: P) {
    const [Shown, setShown] = useState<{ readonly it: ComponentType<P> } | null>(
      loaded === null ? null : { it: loaded },
    );
    useEffect(() => {
      if (loaded !== null) return;
      void load().then((it) => {
        loaded = it;
        setShown({ it });
      });
    }, []);
    return Shown === null ? null : <Shown.it {...props} />;
  };
}
