/** What windows of the app say to one another. */
import type { Op, Place } from './op.ts';

export type Message =
  | { readonly kind: 'asks'; readonly by: string }
  | { readonly kind: 'gives'; readonly to: string }
  /** A write was saved; `after` is the number of the one before it. */
  | { readonly kind: 'wrote'; readonly place: Place; readonly after: number; readonly op: Op }
  /** The store is no longer what it was, in more than one write. */
  | { readonly kind: 'changed' };

export interface Bus {
  readonly post: (message: Message) => void;
  /** From now on, until the bus is closed. */
  readonly listen: (listener: (message: Message) => void) => void;
  /** Answers whether such a message came before the time (ms) was over. */
  readonly next: (wanted: (message: Message) => boolean, limitMs: number) => Promise<boolean>;
  readonly close: () => void;
}

/** @example const bus = createBus(new BroadcastChannel('fellmark')); */
export function createBus(channel: BroadcastChannel): Bus {
  const listeners = new Set<(message: Message) => void>();
  // All versions of the app share the channel: what a listener does not know, it leaves alone.
  channel.onmessage = ({ data }: MessageEvent<Message>) => {
    for (const listener of [...listeners]) listener(data);
  };
  return {
    post: (message) => channel.postMessage(message),
    listen: (listener) => void listeners.add(listener),
    next: (wanted, limitMs) =>
      new Promise((resolve) => {
        const done = (hasCome: boolean) => {
          listeners.delete(onMessage);
          resolve(hasCome);
        };
        const onMessage = (message: Message) => {
          if (wanted(message)) done(true);
        };
        listeners.add(onMessage);
        setTimeout(() => done(false), limitMs);
      }),
    close: () => channel.close(),
  };
}
