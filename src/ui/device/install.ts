/** How the app can come onto the home screen, as far as this browser tells. */
import { computed, signal } from '@preact/signals';
import { isInstalled, isTouched } from './browserTab.ts';

/**
 * `ask`: the browser puts the question itself, when asked to. `safari`, `safari-desk`: only by hand,
 * and a tab's things are deleted after seven days without a visit. `menu`: by hand. `none`: nobody knows.
 */
export type InstallWay = 'installed' | 'ask' | 'safari' | 'safari-desk' | 'menu' | 'none';

/** What Chromium hands out instead of asking by itself; in no standard yet. */
interface InstallQuestion extends Event {
  prompt(): Promise<{ readonly outcome: 'accepted' | 'dismissed' }>;
}

const question = signal<InstallQuestion | null>(null);
const wasInstalled = signal(false);

export const installWay = computed<InstallWay>(() => {
  if (wasInstalled.value || isInstalled()) return 'installed';
  if (question.value !== null) return 'ask';
  // Only Safari says whether a page stands on the home screen in this way.
  if ('standalone' in navigator) return isTouched() ? 'safari' : 'safari-desk';
  return isTouched() ? 'menu' : 'none';
});

/** From the start on: the browser speaks up once, and early. */
export function listenForInstall(): void {
  addEventListener('beforeinstallprompt', (event) => {
    // It would put its question over the loom.
    event.preventDefault();
    question.value = event as InstallQuestion;
  });
  addEventListener('appinstalled', () => {
    wasInstalled.value = true;
  });
}

/** Called at the tap itself. A question can be put once only. */
export async function install(): Promise<void> {
  const asked = question.peek();
  question.value = null;
  const answer = await asked?.prompt();
  if (answer?.outcome === 'accepted') wasInstalled.value = true;
}
