/**
 * The third place: a few words in the page's local storage about what was last saved. They cannot
 * bring anything back, but tell an emptied store from a new one.
 */
import type { Ledger } from './op.ts';

export type Testimony = Pick<Ledger, 'store' | 'n' | 'events' | 'warps'>;

export interface Witness {
  readonly read: () => Testimony | null;
  readonly write: (ledger: Ledger) => void;
  /** What was once saved and is gone, until somebody has taken note of it. */
  readonly loss: () => Testimony | null;
  readonly setLoss: (loss: Testimony) => void;
  /** Nothing that was is missed any more. */
  readonly forget: () => void;
}

const KEY = 'fellmark-saved';
const LOSS_KEY = 'fellmark-lost';

/** Where there is no local storage nothing is known and nothing is said. */
export function createWitness(storage: () => Storage): Witness {
  const get = (key: string): Testimony | null => {
    try {
      const value: unknown = JSON.parse(storage().getItem(key) ?? 'null');
      return isTestimony(value) ? value : null;
    } catch {
      return null;
    }
  };
  const set = (key: string, value: Testimony | null): void => {
    try {
      if (value === null) storage().removeItem(key);
      else storage().setItem(key, JSON.stringify(value));
    } catch {
      // Full or forbidden: the two copies stand without it.
    }
  };
  return {
    read: () => get(KEY),
    write: ({ store, n, events, warps }) => set(KEY, { store, n, events, warps }),
    loss: () => get(LOSS_KEY),
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

function isTestimony(value: unknown): value is Testimony {
  if (typeof value !== 'object' || value === null || !('store' in value)) return false;
  const numbers: readonly unknown[] = ['n', 'events', 'warps'].map(
    (name) => (value as Readonly<Record<string, unknown>>)[name],
  );
  return typeof value.store === 'string' && numbers.every(Number.isFinite);
}
