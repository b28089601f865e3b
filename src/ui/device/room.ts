/** How much more this device has room for. */
import { signal } from '@preact/signals';

/** Bytes; null where the browser does not say. Browsers round it, so that nobody is known by it. */
export const roomLeft = signal<number | null>(null);

/** Below this a few photos are all that still goes in (ours). */
export const LITTLE_ROOM = 50_000_000;

export async function lookForRoom(): Promise<void> {
  try {
    const { quota, usage } = await navigator.storage.estimate();
    roomLeft.value = quota === undefined ? null : Math.max(0, quota - (usage ?? 0));
  } catch {
    roomLeft.value = null;
  }
}
