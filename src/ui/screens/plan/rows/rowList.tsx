/** Rows under each other, each in one line; the open one shows its fields, groups show their rows. */
import { useMemo } from 'preact/hooks';
import { type Nest, type Place, replaceRow, rowsOf } from '../../../../core/plan/listEdits.ts';
import type { Letter } from '../../../../core/plan/plan.ts';
import type { Band } from '../../../../core/planner/orderBands.ts';
import { t } from '../../../language/t.ts';
import { ProblemsAt } from '../../../parts/problemsAt.tsx';
import { Swatch } from '../../../parts/swatch.tsx';
import { isSame, type OrderRows, pathOf, yarnOf } from './orderRows.ts';
import { Sliver } from './orderStrip.tsx';
import { AddBar, GroupTools, RowTools } from './rowTools.tsx';

interface RowListProps<T extends Nest> {
  readonly order: OrderRows<T>;
  readonly rows: readonly T[];
  /** The place of the group these are the rows of; empty at the top. */
  readonly outer: Place;
}

export function RowList<T extends Nest>({ order, rows, outer }: RowListProps<T>) {
  const { trade } = order;
  const bands = useMemo(() => rows.map((row) => trade.bands([row])), [rows, trade]);
  const sizes = bands.map(sizeOf);
  const largest = Math.max(...sizes);
  return (
    <ol class="order-rows">
      {rows.map((row, i) => {
        const place = [...outer, i];
        return (
          <Row
            key={place.join('.')}
            order={order}
            row={row}
            place={place}
            bands={bands[i] ?? null}
            share={(sizes[i] ?? 0) / largest}
            before={bands[i - 1]?.at(-1)?.yarn ?? null}
            after={bands[i + 1]?.at(0)?.yarn ?? null}
          />
        );
      })}
    </ol>
  );
}

function sizeOf(bands: readonly Band[] | null): number {
  return bands?.reduce((sum, band) => sum + band.extent, 0) ?? 0;
}

interface RowProps<T extends Nest> {
  readonly order: OrderRows<T>;
  readonly row: T;
  readonly place: Place;
  readonly bands: readonly Band[] | null;
  /** Its size beside the largest row of its list, 0 to 1. */
  readonly share: number;
  /** What is seen right before and right after it in its list. */
  readonly before: Letter | null;
  readonly after: Letter | null;
}

function Row<T extends Nest>(props: RowProps<T>) {
  const { order, row, place } = props;
  const isOpen = isSame(order.open, place);
  const inside = rowsOf(row);
  const path = pathOf(order.path, place);
  return (
    <li class={inside === null ? 'order-row' : 'order-row order-group'} data-open={isOpen}>
      <RowHead {...props} />
      {isOpen ? <RowCard {...props} /> : <ClosedProblems path={path} group={inside !== null} />}
      {inside === null ? null : (
        <div class="order-inside">
          <RowList order={order} rows={inside} outer={place} />
          {isOpen ? (
            <AddBar order={order} place={[...place, inside.length]} label={t('Add inside')} />
          ) : null}
        </div>
      )}
    </li>
  );
}

/** All that is wrong with a row that is folded; rows inside a group speak for themselves. */
function ClosedProblems({ path, group }: { readonly path: string; readonly group: boolean }) {
  if (!group) return <ProblemsAt path={path} inside />;
  return (
    <>
      <ProblemsAt path={path} />
      <ProblemsAt path={`${path}.times`} />
      <ProblemsAt path={`${path}.of`} />
    </>
  );
}

/** So many turns are shown in the one line of a row. */
const MOST_TURNS = 4;

function RowHead<T extends Nest>({ order, row, place, bands, share }: RowProps<T>) {
  const { yarns, trade } = order;
  const isOpen = isSame(order.open, place);
  const { turns, main, more } = trade.words(row);
  return (
    <button
      type="button"
      class="row-head"
      aria-expanded={isOpen}
      data-anchor={`row-${place.join('.')}`}
      onClick={() => order.show(isOpen ? null : place)}
    >
      {turns.length === 0 ? null : (
        <span class="row-turns">
          {turns.slice(0, MOST_TURNS).map(({ yarn, count }, i) => (
            <span class="row-turn" key={`${i} ${yarn}`}>
              <Swatch yarn={yarnOf(yarns, yarn)} />
              <span class="unseen">{yarn}</span>
              {count}
            </span>
          ))}
          {turns.length > MOST_TURNS ? '…' : null}
        </span>
      )}
      <strong class="row-main">{main}</strong>
      <span class="row-more">{more}</span>
      <Sliver bands={bands} yarns={yarns} share={share} />
    </button>
  );
}

function RowCard<T extends Nest>(props: RowProps<T>) {
  const { order, row, place } = props;
  const { rows, trade } = order;
  const path = pathOf(order.path, place);
  const set = (next: T, about: string | null) =>
    order.edit(replaceRow(rows, place, next), place, about);
  return (
    <div class="row-card" key={place.join('.')}>
      <RowTools order={order} place={place} />
      <ProblemsAt path={path} />
      {trade.fields(row, path, set)}
      <Melting {...props} />
      <GroupTools order={order} place={place} />
      <AddBelow {...props} />
    </div>
  );
}

/** Behind the last row of all the bar at the end of the order does the same; a group adds inside. */
function AddBelow<T extends Nest>({ order, row, place }: RowProps<T>) {
  const i = place.at(-1) ?? 0;
  const isLast = place.length === 1 && i === order.rows.length - 1;
  if (isLast || rowsOf(row) !== null) return null;
  return <AddBar order={order} place={[...place.slice(0, -1), i + 1]} label={t('Add below')} />;
}

/** Says where a row and its neighbour will be seen as one stripe. */
function Melting<T extends Nest>({ bands, before, after }: RowProps<T>) {
  const [first, last] = [bands?.at(0)?.yarn, bands?.at(-1)?.yarn];
  return (
    <>
      {first !== undefined && first === before ? (
        <p class="hint">{meltingWords(first, 'above')}</p>
      ) : null}
      {last !== undefined && last === after ? (
        <p class="hint">{meltingWords(last, 'below')}</p>
      ) : null}
    </>
  );
}

function meltingWords(yarn: Letter, where: 'above' | 'below'): string {
  return t(
    'The row {where, select, above {above} other {below}} touches this one with {yarn} too: the two will be seen as one stripe.',
    { where, yarn },
  );
}
