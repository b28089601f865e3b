/** What was seen on this device and need not be shown again. Where nothing can be kept it is shown again. */
import { signal } from '@preact/signals';

const KEY = 'fellmark-seen';

export type Shown = 'walk' | 'install';

function kept(): readonly string[] {
  try {
    return (localStorage.getItem(KEY) ?? '').split(' ');
  } catch {
    return [];
  }
}

export const seen = signal(kept());

export function markSeen(what: Shown): void {
  keep([...seen.peek(), what]);
}

export function showAgain(what: Shown): void {
  keep(seen.peek().filter((it) => it !== what));
}

function keep(all: readonly string[]): void {
  seen.value = all;
  try {
    localStorage.setItem(KEY, all.join(' ').trim());
  } catch {
    // It is only shown once more.
  }
}
