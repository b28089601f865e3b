/** Web Locks for several windows in one thread, as far as the pen uses them. */

interface Waiting {
  readonly grant: () => void;
  readonly window: object;
}

export interface Locks {
  /** The lock manager as one window sees it. */
  readonly forWindow: () => LockManager;
  readonly isHeld: () => boolean;
}

/** One lock, whatever its name: the app has only one. */
export function createLocks(): Locks {
  let holder: { readonly lose: (error: Error) => void } | null = null;
  const line: Waiting[] = [];
  const next = () => {
    if (holder === null) line.shift()?.grant();
  };
  const request = (window: object, options: LockOptions, work: () => Promise<void>) =>
    new Promise<void>((resolve, reject) => {
      const waiting: Waiting = { window, grant: () => grant() };
      const grant = () => {
        const own = { lose: reject };
        holder = own;
        // A browser grants in a later turn, from another process.
        setImmediate(() => {
          void work().then(() => {
            if (holder === own) holder = null;
            resolve();
            next();
          });
        });
      };
      if (options.steal === true) {
        holder?.lose(new DOMException('stolen', 'AbortError'));
        grant();
        return;
      }
      line.push(waiting);
      options.signal?.addEventListener('abort', () => {
        const at = line.indexOf(waiting);
        if (at >= 0) line.splice(at, 1);
        reject(new DOMException('left the line', 'AbortError'));
      });
      setImmediate(next);
    });
  return {
    isHeld: () => holder !== null,
    forWindow: () => {
      const window = {};
      const manager = {
        request: (_name: string, options: LockOptions, work: () => Promise<void>) =>
          request(window, options, work),
      };
      return manager as unknown as LockManager;
    },
  };
}
