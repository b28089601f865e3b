/** Work that is done when it is first asked for, and never again: whatever it came to is the answer. */
export function once<T>(work: () => T): () => T {
  let done: { readonly it: T } | undefined;
  return () => {
    done ??= { it: work() };
    return done.it;
  };
}
