/** One thing after the other, in the order asked for. */
export type Queue = <T>(task: () => Promise<T>) => Promise<T>;

/**
 * Makes a queue. A task starts when the one before has settled; a failure belongs to its own
 * caller and does not stop the next.
 */
export function createQueue(): Queue {
  let last: Promise<unknown> = Promise.resolve();
  return (task) => {
    const result = last.then(task);
    last = result.catch(() => undefined);
    return result;
  };
}
