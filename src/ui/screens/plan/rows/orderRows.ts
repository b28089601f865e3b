/** What the rows of a warp order and of a weft order have in common on the screen. */
import type { ComponentChildren } from 'preact';
import type { Nest, Place } from '../../../../core/plan/listEdits.ts';
import type { Letter, Yarn } from '../../../../core/plan/plan.ts';
import type { Band } from '../../../../core/planner/orderBands.ts';
import { t } from '../../../language/t.ts';

export const ROW_KINDS = ['solid', 'alternation', 'repeat', 'mirror'] as const;
export type RowKind = (typeof ROW_KINDS)[number];

export const KIND_WORDS: Record<RowKind, string> = {
  solid: t('Solid'),
  alternation: t('Alternation'),
  repeat: t('Repeat'),
  mirror: t('Mirror'),
};

/** A row in one line: its yarns in the order they take turns, what there is of it, and the rest. */
export interface RowWords {
  readonly turns: readonly { readonly yarn: Letter; readonly count: number | null }[];
  readonly main: string;
  readonly more: string;
}

/** Changes a row; edits with the same `about` in a row are one step to undo. */
export type SetRow<T> = (row: T, about: string | null) => void;

/** How the rows of one kind of order look and are edited. */
export interface RowTrade<T extends Nest> {
  readonly words: (row: T) => RowWords;
  readonly bands: (rows: readonly T[]) => readonly Band[] | null;
  /** Fields of a row that stands at `path` in the plan, such as `warp.order[2].of[0]`. */
  readonly fields: (row: T, path: string, set: SetRow<T>) => ComponentChildren;
  /** A new row that fits behind `before`. */
  readonly make: (kind: RowKind, before: T | undefined) => T;
  /** A row that stands in no group, if the order has such. */
  readonly lone?: { readonly words: string; readonly make: () => T };
  /** These rows repeated twice, or mirrored. */
  readonly wrap: (kind: 'repeat' | 'mirror', rows: readonly T[]) => T;
}

export interface OrderRows<T extends Nest> {
  readonly trade: RowTrade<T>;
  readonly rows: readonly T[];
  readonly yarns: readonly Yarn[];
  readonly path: string;
  readonly open: Place | null;
  readonly edit: (rows: readonly T[], open: Place | null, about: string | null) => void;
  /** Opens a row, or closes all. */
  readonly show: (open: Place | null) => void;
}

/** `warp.order` and [1, 0] → `warp.order[1].of[0]` */
export function pathOf(path: string, [first, ...inner]: Place): string {
  return first === undefined ? path : `${path}[${first}]${inner.map((i) => `.of[${i}]`).join('')}`;
}

export function isSame(a: Place | null, b: Place): boolean {
  return a !== null && a.length === b.length && a.every((it, i) => it === b[i]);
}

/** A yarn by its letter; one the plan has not got is grey and says so. */
export function yarnOf(yarns: readonly Yarn[], letter: Letter): Yarn {
  return (
    yarns.find((yarn) => yarn.letter === letter) ?? {
      letter,
      name: t('no yarn of this plan'),
      colour: '#8a8a8a',
      count: { system: 'tex', number: 1, plies: 1 },
    }
  );
}
