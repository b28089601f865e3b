/** Vibration, where the device has it: a bonus, nothing is told by it alone. */
import type { Signal } from '../../core/bench/hearing/calls.ts';

/** Milliseconds on, off, on … */
const PATTERNS: Readonly<Record<Signal, readonly number[]>> = {
  pick: [15],
  back: [30, 40, 30],
  coming: [40, 80, 40],
  now: [120, 60, 120],
  due: [300],
};

export const canVibrate = 'vibrate' in navigator;

export function vibrate(signals: readonly Signal[]): void {
  if (!canVibrate || signals.length === 0) return;
  navigator.vibrate(signals.flatMap((it) => [...PATTERNS[it], 100]).slice(0, -1));
}
