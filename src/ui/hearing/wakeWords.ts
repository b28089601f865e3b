/** What is said of the screen staying on. */
import type { WakeState } from '../device/wakeLock.ts';
import { t } from '../language/t.ts';

export const WAKE_WORDS: Record<WakeState, { readonly short: string; readonly long: string }> = {
  held: { short: t('The screen stays on'), long: t('The screen stays on while you weave.') },
  off: {
    short: t('The screen may go dark: tap once'),
    long: t('The screen may go dark; the next tap at the bench keeps it on.'),
  },
  refused: {
    short: t('The screen may go dark'),
    long: t(
      'The device refused to keep the screen on: it may be saving its battery. Each tap asks again.',
    ),
  },
  missing: {
    short: t('This browser cannot keep the screen on.'),
    long: t(
      'In the device’s settings, under display, set auto-lock or screen timeout to never while you weave.',
    ),
  },
};
