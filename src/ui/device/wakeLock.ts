/** Keeps the screen awake while weaving, and says whether it could. */
import { signal } from '@preact/signals';

/** `off`: let go by the device; the next tap takes it again. */
export type WakeState = 'off' | 'held' | 'refused' | 'missing';
export const wakeState = signal<WakeState>('off');

/** A page that has only just become visible may still be refused: then once more. */
const AGAIN_MS = 250;

let lock: WakeLockSentinel | null = null;
let wanted = false;
let isWatching = false;

/** Takes the lock and keeps it: browsers let it go whenever the page is hidden. */
export async function keepAwake(): Promise<void> {
  wanted = true;
  watch();
  await take();
}

export async function letSleep(): Promise<void> {
  wanted = false;
  const held = lock;
  lock = null;
  await held?.release();
}

async function take(): Promise<void> {
  if (!('wakeLock' in navigator)) {
    wakeState.value = 'missing';
    return;
  }
  if (lock !== null && !lock.released) return;
  try {
    const taken = await navigator.wakeLock.request('screen');
    if (!wanted || (lock !== null && !lock.released)) {
      await taken.release();
      return;
    }
    lock = taken;
    wakeState.value = 'held';
    taken.addEventListener('release', () => {
      if (lock === taken) wakeState.value = 'off';
    });
  } catch {
    wakeState.value = 'refused';
  }
}

/** Taken again as soon as the page is seen, and with any tap or key where it is not held. */
function watch(): void {
  if (isWatching) return;
  isWatching = true;
  const retake = () => {
    if (wanted && (lock === null || lock.released)) void take();
  };
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible') return;
    retake();
    setTimeout(retake, AGAIN_MS);
  });
  addEventListener('click', retake, { capture: true });
  addEventListener('keydown', retake, { capture: true });
}
