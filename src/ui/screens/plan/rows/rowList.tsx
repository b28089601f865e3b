/** Rows under each other, each in one line; the open one shows its fields, groups show their rows. */
import { useMemo } from 'preact/hooks';
import { type Nest, type Place, replaceRow, rowsOf } from '../../../../core/plan/listEdits.ts';
import type { Letter } from '../../../../core/plan/plan.ts';
import { ProblemsAt } from '../../../parts/problemsAt.tsx';
import { Swatch } from '../../../parts/swatch.tsx';
import { isSame, type OrderRows, pathOf, yarnOf } from './orderRows.ts';
import { Sliver } from './orderStrip.tsx';
import { AddBar, RowTools } from './rowTools.tsx';

interface RowListProps<T extends Nest> {
  readonly order: OrderRows<T>;
  readonly rows: readonly T[];
  /** The place of the group these are the rows of; empty at the top. */
  readonly outer: Place;
}

export function RowList<T extends Nest>({ order, rows, outer }: RowListProps<T>) {
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
            before={rows[i - 1]}
            after={rows[i + 1]}
          />
        );
      })}
    </ol>
  );
}

interface RowProps<T extends Nest> {
  readonly order: OrderRows<T>;
  readonly row: T;
  readonly place: Place;
}

interface NeighbourProps<T extends Nest> extends RowProps<T> {
  readonly before: T | undefined;
  readonly after: T | undefined;
}

function Row<T extends Nest>(props: NeighbourProps<T>) {
  const { order, row, place } = props;
  const isOpen = isSame(order.open, place);
  const inside = rowsOf(row);
  const path = pathOf(order.path, place);
  return (
    <li class={inside === null ? 'order-row' : 'order-row order-group'} data-open={isOpen}>
      <RowHead order={order} row={row} place={place} />
      {isOpen ? <RowCard {...props} /> : <ClosedProblems path={path} group={inside !== null} />}
      {inside === null ? null : (
        <div class="order-inside">
          <RowList order={order} rows={inside} outer={place} />
          {isOpen ? (
            <AddBar order={order} place={[...place, inside.length]} label="Add inside" />
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

function RowHead<T extends Nest>({ order, row, place }: RowProps<T>) {
  const { yarns, trade } = order;
  const isOpen = isSame(order.open, place);
  const { turns, main, more } = trade.words(row);
  const bands = useMemo(() => trade.bands([row]), [row, trade]);
  return (
    <button
      type="button"
      class="row-head"
      aria-expanded={isOpen}
      data-anchor={`row ${place.join('.')}`}
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
      <span class="row-words">
        <strong>{main}</strong> <span class="row-more">{more}</span>
      </span>
      <Sliver bands={bands} yarns={yarns} />
    </button>
  );
}

function RowCard<T extends Nest>({ order, row, place, before, after }: NeighbourProps<T>) {
  const { rows, trade } = order;
  const path = pathOf(order.path, place);
  const set = (next: T, about: string | null) =>
    order.edit(replaceRow(rows, place, next), place, about);
  return (
    <div class="row-card" key={place.join('.')}>
      <ProblemsAt path={path} />
      {trade.fields(row, path, set)}
      <Melting order={order} row={row} before={before} after={after} />
      <RowTools order={order} place={place} />
    </div>
  );
}

type MeltingProps<T extends Nest> = Omit<NeighbourProps<T>, 'place'>;

/** Says where a row and its neighbour will be seen as one stripe. */
function Melting<T extends Nest>({ order, row, before, after }: MeltingProps<T>) {
  const bandsOf = (it: T | undefined) => (it === undefined ? [] : (order.trade.bands([it]) ?? []));
  const own = bandsOf(row);
  const [first, last] = [own.at(0)?.yarn, own.at(-1)?.yarn];
  const isBefore = first !== undefined && bandsOf(before).at(-1)?.yarn === first;
  const isAfter = last !== undefined && bandsOf(after).at(0)?.yarn === last;
  return (
    <>
      {isBefore ? <p class="hint">{meltingWords(first, 'above')}</p> : null}
      {isAfter ? <p class="hint">{meltingWords(last, 'below')}</p> : null}
    </>
  );
}

function meltingWords(yarn: Letter, where: 'above' | 'below'): string {
  return `The row ${where} touches this one with ${yarn} too: the two will be seen as one stripe.`;
}
