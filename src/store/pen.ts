/**
 * Of several windows one writes: the one that holds the pen, a Web Lock. A window that wants it asks
 * for it, and takes it when nobody answers: the one that had it may be asleep in the background.
 */
import type { Bus } from './bus.ts';

const LOCK = 'fellmark-pen';
/** Milliseconds the window that has the pen may take to finish its writes. */
const PATIENCE_MS = 1000;
/** Milliseconds until it is asked again. */
const AGAIN_MS = 125;

export interface PenEvents {
  /** The pen is here: asked for, or because the window that had it is gone. */
  readonly onGained: () => void;
  /** Another window asks: resolves when this one has finished writing. */
  readonly onAsked: () => Promise<void>;
  /** The pen is elsewhere, given or taken. */
  readonly onLost: () => void;
}

export interface Pen {
  /** Resolves when the pen is here. */
  readonly take: () => Promise<void>;
  readonly isHere: () => boolean;
  readonly close: () => void;
}

/** Stands in line for the pen from now on, until closed. `by` names this window. */
export function createPen(locks: LockManager, bus: Bus, by: string, events: PenEvents): Pen {
  const hand = new Hand(locks, events);
  let asking: Promise<void> | null = null;
  const ask = async (): Promise<void> => {
    const here = hand.untilHeld();
    let isGiven = false;
    // Again and again: the window that was asked may have given it to a third one meanwhile.
    for (let waited = 0; !hand.holds && !isGiven && waited < PATIENCE_MS; waited += AGAIN_MS) {
      const answer = bus.next((it) => it.kind === 'gives' && it.to === by, AGAIN_MS);
      bus.post({ kind: 'asks', by });
      isGiven = await Promise.race([here.then(() => false), answer]);
    }
    if (!hand.holds) hand.seize();
    await here;
    asking = null;
  };
  let isGiving = false;
  // Once for all that ask meanwhile: an answer that comes late would give away a pen taken back.
  const give = async (to: string): Promise<void> => {
    isGiving = true;
    await events.onAsked();
    isGiving = false;
    if (!hand.holds) return;
    hand.give();
    bus.post({ kind: 'gives', to });
  };
  bus.listen((message) => {
    if (message.kind === 'asks' && hand.holds && !isGiving) void give(message.by);
  });
  hand.standInLine();
  return {
    take: async () => {
      if (hand.holds) return;
      asking ??= ask();
      await asking;
    },
    isHere: () => hand.holds,
    close: () => hand.close(),
  };
}

/** Where there is no way to agree with other windows, every window has a pen. */
export function lonePen(onGained: () => void): Pen {
  // Not before whoever makes it holds it.
  queueMicrotask(onGained);
  return { take: async () => undefined, isHere: () => true, close: () => undefined };
}

/** This window's hold on the lock. `given`: promised to another window that has not taken it yet. */
class Hand {
  #state: 'empty' | 'holds' | 'given' = 'empty';
  /** The request the lock was got by. */
  #holding: AbortController | null = null;
  #letGo: () => void = () => undefined;
  #line: AbortController | null = null;
  #isClosed = false;
  readonly #waiting: (() => void)[] = [];
  readonly #locks: LockManager;
  readonly #events: PenEvents;

  constructor(locks: LockManager, events: PenEvents) {
    this.#locks = locks;
    this.#events = events;
  }

  get holds(): boolean {
    return this.#state === 'holds';
  }

  untilHeld(): Promise<void> {
    return new Promise((resolve) => this.#waiting.push(resolve));
  }

  standInLine(): void {
    if (this.#isClosed) return;
    this.#line = new AbortController();
    this.#request({ signal: this.#line.signal }, this.#line);
  }

  /** Takes the lock out of another window's hand. */
  seize(): void {
    this.#line?.abort();
    this.#request({ steal: true }, new AbortController());
  }

  /** The lock stays here until the other window takes it, but is not used any more. */
  give(): void {
    this.#state = 'given';
    this.#events.onLost();
  }

  close(): void {
    this.#isClosed = true;
    this.#line?.abort();
    this.#letGo();
  }

  #request(options: LockOptions, own: AbortController): void {
    const granted = async (): Promise<void> => {
      // Taken from us before we knew that we had it.
      if (own.signal.aborted) return;
      this.#holding = own;
      this.#gain();
      await new Promise<void>((resolve) => {
        this.#letGo = resolve;
      });
    };
    // Rejects when the lock was taken from us, and when we left the line by our own wish.
    this.#locks.request(LOCK, options, granted).catch(() => {
      own.abort();
      if (this.#holding === own) this.#lose();
    });
  }

  #gain(): void {
    this.#state = 'holds';
    for (const resolve of this.#waiting.splice(0)) resolve();
    this.#events.onGained();
  }

  #lose(): void {
    if (this.#state === 'holds') this.#events.onLost();
    this.#state = 'empty';
    this.#holding = null;
    this.standInLine();
  }
}
