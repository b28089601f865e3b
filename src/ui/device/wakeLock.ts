/** Keeps the screen awake while weaving, and says whether it could. */
import { signal } from '@preact/signals';

export type WakeState = 'off' | 'held' | 'refused' | 'missing';
export const wakeState = signal<WakeState>('off');

let lock: WakeLockSentinel | null = null;
let wanted = false;

/** Takes the lock; browsers let it go whenever the page is hidden, so it is taken again when seen. */
export async function keepAwake(): Promise<void> {
  wanted = true;
  if (!('wakeLock' in navigator)) {
    wakeState.value = 'missing';
    return;
  }
  if (lock !== null && !lock.released) return;
  try {
    lock = await navigator.wakeLock.request('screen');
    wakeState.value = 'held';
    lock.addEventListener('release', () => {
      if (wakeState.value === 'held') wakeState.value = 'off';
    });
  } catch {
    wakeState.value = 'refused';
  }
}

export async function letSleep(): Promise<void> {
  wanted = false;
  await lock?.release();
  lock = null;
}

export function watchVisibility(): void {
  document.addEventListener('visibilitychange', () => {
    if (wanted && document.visibilityState === 'visible') void keepAwake();
  });
}
