/** Asks the browser not to delete what is saved when room runs short, and says what it answered. */
import { signal } from '@preact/signals';

export type Persistence = 'asked' | 'granted' | 'refused' | 'missing';
/** For the settings: nothing in the app depends on it. */
export const persistence = signal<Persistence>('asked');

/** At every launch: an answer may change once the app is installed or much used. */
export async function askToPersist(): Promise<void> {
  if (typeof navigator.storage?.persist !== 'function') {
    persistence.value = 'missing';
    return;
  }
  try {
    const isGranted = (await navigator.storage.persisted()) || (await navigator.storage.persist());
    persistence.value = isGranted ? 'granted' : 'refused';
  } catch {
    persistence.value = 'refused';
  }
}
