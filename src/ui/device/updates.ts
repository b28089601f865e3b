/** One registration of the service worker; a new version waits until it is asked for. */
import { Workbox } from 'workbox-window';
import { updateWaiting } from '../state.ts';

let workbox: Workbox | null = null;

/** A new version is only announced, so looking for one disturbs nobody. */
const HOUR_MS = 3_600_000;

/** Registers once. A waiting version is only announced; the page reloads on `controllerchange` after being asked. */
export function registerWorker(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  workbox = new Workbox('./sw.js');
  workbox.addEventListener('waiting', () => {
    updateWaiting.value = true;
  });
  void workbox.register().catch(() => undefined);
  addEventListener('online', () => void lookForUpdate());
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void lookForUpdate();
  });
  setInterval(() => void lookForUpdate(), HOUR_MS);
}

/** Answers whether a newer version was found. */
export async function lookForUpdate(): Promise<boolean> {
  await workbox?.update().catch(() => undefined);
  const registration = await navigator.serviceWorker?.getRegistration();
  return (registration?.installing ?? registration?.waiting ?? null) !== null;
}

/** Applies the waiting version: called from a tap, never by itself. */
export function applyUpdate(): void {
  if (workbox === null) return;
  workbox.addEventListener('controlling', () => location.reload());
  workbox.messageSkipWaiting();
}
