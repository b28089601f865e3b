/** Says what happens to the store besides this window's own writes. */
import { isSamePlace, type Op, type Place } from './op.ts';
import type { StoreError } from './store.ts';
import type { Standing } from './takeUp.ts';
import type { Loss } from './witness.ts';

/** What there is to know of the store besides what is in it. */
export interface StoreState {
  /** Whether this window writes; `asked` until that is known. */
  readonly pen: 'asked' | 'here' | 'elsewhere';
  /**
   * `two`: database and journal. `missing`: the browser has no place for a journal. `failed`: it has,
   * but the journal does not work now. `unknown`: another window sees to it.
   */
  readonly copies: 'unknown' | 'two' | 'missing' | 'failed';
  /** What was saved here once and is gone from every place. */
  readonly loss: Loss | null;
  /** Why this window could not take up the pen. */
  readonly trouble: StoreError | null;
}

export type News =
  | { readonly kind: 'state'; readonly state: StoreState }
  /** Another window has saved this. */
  | { readonly kind: 'wrote'; readonly op: Op }
  /** Anything may have changed: read anew. */
  | { readonly kind: 'changed' };

export type Listener = (news: News) => void;

export interface Herald {
  readonly state: () => StoreState;
  readonly setState: (change: Partial<StoreState>) => void;
  readonly listen: (listener: Listener) => void;
  /** This window has compared the copies: answers whether it found what nobody had told. */
  readonly looked: (standing: Standing, hasPlace: boolean) => boolean;
  /** This window has written: it knows. */
  readonly wrote: (standing: Standing, hasPlace: boolean) => void;
  readonly othersWrote: (place: Place, after: number, op: Op) => void;
  readonly othersChanged: () => void;
}

/** `seen`: the place up to which this window knows everything. */
export function createHerald(first: StoreState, seen: Place | null): Herald {
  const listeners: Listener[] = [];
  let state = first;
  let place = seen;
  const say: Listener = (news) => {
    for (const listener of listeners) listener(news);
  };
  const setState: Herald['setState'] = (change) => {
    const next = { ...state, ...change };
    const isSame = (Object.keys(next) as (keyof StoreState)[]).every(
      (it) => next[it] === state[it],
    );
    state = next;
    if (!isSame) say({ kind: 'state', state });
  };
  const wrote: Herald['wrote'] = ({ ledger, hasJournal, loss }, hasPlace) => {
    place = ledger;
    const copies = hasJournal ? 'two' : hasPlace ? 'failed' : 'missing';
    setState({ copies, loss });
  };
  return {
    state: () => state,
    setState,
    listen: (listener) => void listeners.push(listener),
    wrote,
    looked: (standing, hasPlace) => {
      const isNews = !isSamePlace(place, standing.ledger);
      wrote(standing, hasPlace);
      if (isNews) say({ kind: 'changed' });
      return isNews;
    },
    othersWrote: (at, after, op) => {
      const isNext = after === (place?.n ?? 0);
      place = at;
      say(isNext ? { kind: 'wrote', op } : { kind: 'changed' });
    },
    othersChanged: () => {
      place = null;
      say({ kind: 'changed' });
    },
  };
}
