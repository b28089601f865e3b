/**
 * The third place: a few words in the page's local storage about what was last saved. They cannot
 * bring anything back, but tell an emptied store from a new one.
 */
import type { Ledger } from './op.ts';

export interface Testimony extends Pick<Ledger, 'store' | 'n' | 'events' | 'warps'> {
  /** Who wrote it; older versions did not say. */
  readonly by?: string;
}

/** What was saved once, and what of it is left. */
export interface Loss {
  readonly was: Testimony;
  readonly left: Pick<Testimony, 'events' | 'warps'>;
}

export interface Witness {
  readonly read: () => Testimony | null;
  readonly write: (ledger: Ledger) => void;
  /** What was once saved and is gone, until somebody has taken note of it. */
  readonly loss: () => Loss | null;
  readonly setLoss: (loss: Loss) => void;
  /** Nothing that was is missed any more. */
  readonly forget: () => void;
}

const KEY = 'fellmark-saved';
const LOSS_KEY = 'fellmark-lost';

/** Where there is no local storage nothing is known and nothing is said. */
export function createWitness(storage: () => Storage): Witness {
  const get = (key: string): unknown => {
    try {
      return JSON.parse(storage().getItem(key) ?? 'null');
    } catch {
      return null;
    }
  };
  const set = (key: string, value: unknown): void => {
    try {
      storage().setItem(key, JSON.stringify(value));
    } catch {
      // Full or forbidden: the two copies stand without it.
    }
  };
  return {
    read: () => testimonyIn(get(KEY)),
    write: ({ store, n, by, events, warps }) => set(KEY, { store, n, by, events, warps }),
    loss: () => lossIn(get(LOSS_KEY)),
    setLoss: (loss) => set(LOSS_KEY, loss),
    forget: () => {
      set(KEY, null);
      set(LOSS_KEY, null);
    },
  };
}

/** Sees nothing. */
export const noWitness: Witness = {
  read: () => null,
  write: () => undefined,
  loss: () => null,
  setLoss: () => undefined,
  forget: () => undefined,
};

function testimonyIn(value: unknown): Testimony | null {
  if (typeof value !== 'object' || value === null) return null;
  const { store, n, events, warps } = value as Partial<Testimony>;
  const isWhole = typeof store === 'string' && [n, events, warps].every(Number.isFinite);
  return isWhole ? (value as Testimony) : null;
}

function lossIn(value: unknown): Loss | null {
  if (typeof value !== 'object' || value === null || !('was' in value)) return null;
  return testimonyIn(value.was) === null ? null : (value as Loss);
}
