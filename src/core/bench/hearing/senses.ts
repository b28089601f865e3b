/** What the weaver hears, feels and presses at the bench, and what was stored of it. */

/** `changes`: only what is coming, what changes now and what falls due. */
export const SOUNDS = ['off', 'picks', 'changes'] as const;
export type Sounds = (typeof SOUNDS)[number];

export interface Senses {
  readonly sound: Sounds;
  /** 1 to 10. */
  readonly volume: number;
  readonly voice: 'off' | 'on';
  /** Name of the device's voice; empty for the one that fits the language. */
  readonly voiceName: string;
  /** How fast it speaks, as a share of its own pace. */
  readonly rate: number;
  readonly vibration: 'off' | 'on';
  /** Picks ahead at which a change is told; 0 for not at all. */
  readonly ahead: number;
  /** Keys of a pedal that the weaver taught, as `KeyboardEvent.key` has them; empty for none. */
  readonly throwKey: string;
  readonly undoKey: string;
  readonly againKey: string;
  /** Whether the card about the screen going dark was read. */
  readonly wakeCard: 'unread' | 'read';
}

export const DEFAULT_SENSES: Senses = {
  sound: 'off',
  volume: 5,
  voice: 'off',
  voiceName: '',
  rate: 1,
  vibration: 'off',
  ahead: 4,
  throwKey: '',
  undoKey: '',
  againKey: '',
  wakeCard: 'unread',
};

export const MOST_AHEAD = 20;
export const VOLUMES = { least: 1, most: 10 } as const;
export const RATES = [0.75, 1, 1.25, 1.5] as const;
/** Longer than the name of any key or voice. */
const LONGEST_NAME = 200;

type Check = (value: unknown) => boolean;

const oneOf =
  (...all: readonly unknown[]): Check =>
  (value) =>
    all.includes(value);
const whole =
  (least: number, most: number): Check =>
  (value) =>
    Number.isInteger(value) && Number(value) >= least && Number(value) <= most;
const name: Check = (value) => typeof value === 'string' && value.length <= LONGEST_NAME;

const CHECKS: { readonly [K in keyof Senses]: Check } = {
  sound: oneOf(...SOUNDS),
  volume: whole(VOLUMES.least, VOLUMES.most),
  voice: oneOf('off', 'on'),
  voiceName: name,
  rate: oneOf(...RATES),
  vibration: oneOf('off', 'on'),
  ahead: whole(0, MOST_AHEAD),
  throwKey: name,
  undoKey: name,
  againKey: name,
  wakeCard: oneOf('unread', 'read'),
};

/** What was stored, field by field; what is missing or makes no sense is as at first. */
export function decodeSenses(stored: unknown): Senses {
  if (typeof stored !== 'object' || stored === null) return DEFAULT_SENSES;
  const good = Object.entries(stored).filter(
    ([key, value]) => Object.hasOwn(CHECKS, key) && CHECKS[key as keyof Senses](value),
  );
  return { ...DEFAULT_SENSES, ...(Object.fromEntries(good) as Partial<Senses>) };
}
