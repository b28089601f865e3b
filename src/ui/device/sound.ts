/**
 * Short sounds made on the spot, so that nothing need be fetched. Browsers start sound only inside a
 * tap, let it sleep when the page is hidden, and sometimes leave a context "running" whose clock
 * stands still: so every tap looks whether there is still one that works.
 */
import type { Signal } from '../../core/bench/hearing/calls.ts';

/** One tone of a sound. Times in seconds, pitches in hertz. */
export interface Tone {
  readonly at: number;
  readonly from: number;
  readonly to: number;
  readonly seconds: number;
  /** Share of the loudest. */
  readonly loud: number;
}

/** Told apart by rhythm and direction, not by pitch alone: one knock, falling, rising, three, a bell. */
const TONES: Readonly<Record<Signal, readonly Tone[]>> = {
  pick: [{ at: 0, from: 620, to: 480, seconds: 0.05, loud: 0.5 }],
  back: [{ at: 0, from: 520, to: 260, seconds: 0.16, loud: 0.5 }],
  coming: [
    { at: 0, from: 523, to: 523, seconds: 0.11, loud: 0.6 },
    { at: 0.14, from: 659, to: 659, seconds: 0.14, loud: 0.6 },
  ],
  now: [
    { at: 0, from: 784, to: 784, seconds: 0.09, loud: 0.8 },
    { at: 0.12, from: 784, to: 784, seconds: 0.09, loud: 0.8 },
    { at: 0.24, from: 1047, to: 1047, seconds: 0.22, loud: 0.8 },
  ],
  due: [
    { at: 0, from: 440, to: 440, seconds: 0.7, loud: 0.7 },
    { at: 0.02, from: 1109, to: 1109, seconds: 0.5, loud: 0.3 },
    { at: 0.45, from: 330, to: 330, seconds: 0.8, loud: 0.7 },
  ],
};

/** Amplitude at volume 10: half of what the device can do. */
const LOUDEST = 0.5;
const ATTACK_S = 0.006;
/** A clock that has not moved for longer than this between two taps stands still. */
const STILL_MS = 400;

let context: AudioContext | null = null;
let seen = { at: 0, clock: 0 };
/** When the tones of the last sound end: the next does not begin before. */
let busyUntil = 0;

/** Called inside every tap and key press; `timeStamp` in ms is that of the event. */
export function wakeSound(timeStamp: number): void {
  if (context !== null && standsStill(context, timeStamp)) {
    void context.close().catch(() => undefined);
    context = null;
  }
  context ??= newContext();
  if (context === null) return;
  if (context.state !== 'running') void context.resume().catch(() => undefined);
  seen = { at: timeStamp, clock: context.currentTime };
}

function standsStill(it: AudioContext, timeStamp: number): boolean {
  if (it.state === 'closed') return true;
  return it.state === 'running' && timeStamp - seen.at > STILL_MS && it.currentTime === seen.clock;
}

function newContext(): AudioContext | null {
  busyUntil = 0;
  return typeof AudioContext === 'undefined' ? null : new AudioContext();
}

/** Plays the sounds of one moment, one after the other. `volume` from 1 to 10. Silent before the first tap. */
export function playSounds(signals: readonly Signal[], volume: number): void {
  if (context === null) return;
  for (const signal of signals) {
    const tones = TONES[signal];
    const start = Math.max(context.currentTime, busyUntil);
    for (const tone of tones) playTone(context, tone, start, gainAt(volume));
    // A knock may lie on the tail of the one before; what tells more waits its turn.
    const lasts = signal === 'pick' ? 0 : Math.max(...tones.map((it) => it.at + it.seconds));
    busyUntil = start + lasts;
  }
}

/** Loudness is felt by ratios: a quadratic scale makes the steps even enough. */
const gainAt = (volume: number) => LOUDEST * (volume / 10) ** 2;

function playTone(it: AudioContext, tone: Tone, start: number, gain: number): void {
  const begin = start + tone.at;
  const end = begin + tone.seconds;
  const source = it.createOscillator();
  const shape = it.createGain();
  source.frequency.setValueAtTime(tone.from, begin);
  if (tone.to !== tone.from) source.frequency.exponentialRampToValueAtTime(tone.to, end);
  shape.gain.setValueAtTime(0, begin);
  shape.gain.linearRampToValueAtTime(gain * tone.loud, begin + ATTACK_S);
  // Down to nothing before it stops: an oscillator cut off clicks.
  shape.gain.exponentialRampToValueAtTime(0.0001, end);
  source.connect(shape).connect(it.destination);
  source.start(begin);
  source.stop(end);
}
