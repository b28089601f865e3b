/** What is said of the screen staying on. */
import type { WakeState } from '../device/wakeLock.ts';

export const WAKE_WORDS: Record<WakeState, { readonly short: string; readonly long: string }> = {
  held: { short: 'The screen stays on', long: 'The screen stays on while you weave.' },
  off: {
    short: 'The screen may go dark: tap once',
    long: 'The screen may go dark; the next tap at the bench keeps it on.',
  },
  refused: {
    short: 'The screen may go dark',
    long: 'The device refused to keep the screen on: it may be saving its battery. Each tap asks again.',
  },
  missing: {
    short: 'This browser cannot keep the screen on.',
    long: 'In the device’s settings, under display, set auto-lock or screen timeout to never while you weave.',
  },
};
