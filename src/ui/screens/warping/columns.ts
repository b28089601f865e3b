/** The heddle or the shafts as columns of a picture, from left to right as the weaver sees them. */
import type { Letter } from '../../../core/plan/plan.ts';
import { endsAfter, openingsAfter } from '../../../core/plan/warping/heddle.ts';
import type { Work } from './stepWords.ts';

/** A slot or hole of a rigid heddle, or one end of a shaft loom in its heddle. */
export interface Column {
  readonly kind: 'slot' | 'hole' | 'shaft-1' | 'shaft-2';
  /** Slot, or dent of the reed, counted from 1 from where the list begins. */
  readonly number: number;
  /** Letters of the ends that are in it. */
  readonly holds: readonly Letter[];
  /** What it holds once the warp is on. */
  readonly willHold: readonly Letter[];
  readonly now: boolean;
}

export function columnsOf({ plan, list, seenFrom }: Work, done: number): readonly Column[] {
  const columns = plan.loom.kind === 'shaft' ? onShafts(list, done) : inHeddle(list, done);
  return seenFrom === list.viewpoint ? columns : columns.toReversed();
}

function inHeddle(list: Work['list'], done: number): readonly Column[] {
  return openingsAfter(list, done).map(({ index, ...opening }) => ({
    ...opening,
    number: index + 1,
  }));
}

function onShafts(list: Work['list'], done: number): readonly Column[] {
  return endsAfter(list, done).flatMap(({ yarn, place, laid, now }): readonly Column[] =>
    place.kind === 'shaft'
      ? [
          {
            kind: `shaft-${place.shaft}`,
            number: place.dent + 1,
            holds: laid ? [yarn] : [],
            willHold: [yarn],
            now,
          },
        ]
      : [],
  );
}

/** Columns shown large: those of the step to do, with some beside them; the first ones before any. */
export function windowOn(columns: readonly Column[], least: number, beside: number) {
  const first = columns.findIndex((column) => column.now);
  if (first < 0) return { from: 0, to: columns.length };
  const last = columns.findLastIndex((column) => column.now);
  const short = Math.max(0, least - (last + 1 - first) - 2 * beside);
  const from = first - beside - Math.floor(short / 2);
  const to = last + 1 + beside + Math.ceil(short / 2);
  // At an edge the window is pushed inwards, so that it always shows as many columns.
  const shift = Math.max(0, -from) - Math.max(0, to - columns.length);
  return { from: Math.max(0, from + shift), to: Math.min(columns.length, to + shift) };
}
