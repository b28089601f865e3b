/** The page's own address: what it is without its fragment, and a plan that may be in it. */

/** Where this app lives, such as `https://example.org/loom/`: what a link to it begins with. */
export function appAddress(): string {
  return `${location.origin}${location.pathname}`;
}

/** Hands on an address with a plan in it, at the start and whenever another is opened in this window. */
export function followAddress(onPlan: (address: string) => void): void {
  const look = () => {
    if (location.hash.startsWith('#plan=')) onPlan(location.href);
  };
  addEventListener('hashchange', look);
  look();
}

/** Takes the plan out of the address, so that a reload or a bookmark does not offer it again. */
export function clearFragment(): void {
  if (location.hash !== '') history.replaceState(history.state, '', appAddress() + location.search);
}
