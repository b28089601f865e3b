/**
 * The log: what happened at the loom, one event a tap, never a result. Progress is a fold over it.
 *
 * `after` names the event this device had last seen of the warp, so a log is a chain, and two copies
 * of one warp that were both woven on show as two ends instead of a sum.
 */
import type { Mm } from '../measure/length.ts';
import type { Letter, ShedWord, Side } from '../plan/plan.ts';
import type { WarpingWay } from '../plan/warping/list.ts';

export type EventId = string;

export interface EventHead {
  /** Unique across devices. */
  readonly id: EventId;
  readonly warp: string;
  readonly after: EventId | null;
  /** ISO 8601, UTC. */
  readonly at: string;
}

export type LogEvent = EventHead & Happening;
export type Happening =
  | { readonly kind: 'thrown'; readonly picks: number }
  | { readonly kind: 'takenOut'; readonly picks: number }
  | { readonly kind: 'woveLength'; readonly loomLength: Mm }
  | { readonly kind: 'undone'; readonly event: EventId }
  | { readonly kind: 'redone'; readonly event: EventId }
  | { readonly kind: 'otherShed' }
  | {
      readonly kind: 'placed';
      readonly pick: number;
      readonly shed: ShedWord;
      readonly sides: Sides;
    }
  | { readonly kind: 'dueDone'; readonly due: string }
  | { readonly kind: 'dueDeferred'; readonly due: string }
  | { readonly kind: 'advanced' }
  | {
      readonly kind: 'blockSet';
      readonly piece: number;
      readonly block: number;
      readonly picks: number;
    }
  /**
   * Steps of the warping list ticked off, in its order; `way` names the list. Changing the way
   * begins a new list, and so takes back the steps of the old one: `steps` is negative then.
   */
  | { readonly kind: 'warped'; readonly steps: number; readonly way?: WarpingWay }
  | { readonly kind: 'cutOff' };

export type Sides = { readonly [letter: Letter]: Side };
export type HappeningKind = Happening['kind'];
