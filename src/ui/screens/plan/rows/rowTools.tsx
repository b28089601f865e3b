/** What can be done with a row besides changing its fields, and the bar that adds rows. */
import {
  copyRow,
  type Edited,
  insertRow,
  moveRow,
  type Nest,
  type Place,
  removeRow,
  rowAt,
  rowsOf,
  takeIn,
  unwrapRow,
  wrapRow,
} from '../../../../core/plan/listEdits.ts';
import { KIND_WORDS, type OrderRows, ROW_KINDS } from './orderRows.ts';

interface ToolsProps<T extends Nest> {
  readonly order: OrderRows<T>;
  readonly place: Place;
}

export function RowTools<T extends Nest>({ order, place }: ToolsProps<T>) {
  const { rows, edit, trade } = order;
  const row = rowAt(rows, place);
  const go = (edited: Edited<T> | null) => edited !== null && edit(edited.list, edited.place, null);
  const wrap = (kind: 'repeat' | 'mirror') =>
    edit(
      wrapRow(rows, place, (inside) => trade.wrap(kind, inside)),
      place,
      null,
    );
  return (
    <fieldset class="row-tools" aria-label="This row">
      <MoveTools order={order} place={place} />
      <Tool id="copy" words="Copy" onUse={() => go(copyRow(rows, place))} />
      <Tool id="remove" words="Remove" onUse={() => edit(removeRow(rows, place), null, null)} />
      <Tool id="repeat" words="Repeat it" onUse={() => wrap('repeat')} />
      <Tool id="mirror" words="Mirror it" onUse={() => wrap('mirror')} />
      {row === undefined || rowsOf(row) === null ? null : (
        <GroupTools order={order} place={place} />
      )}
    </fieldset>
  );
}

function MoveTools<T extends Nest>({ order, place }: ToolsProps<T>) {
  const up = moveRow(order.rows, place, 'up');
  const down = moveRow(order.rows, place, 'down');
  const go = (edited: Edited<T> | null) =>
    edited !== null && order.edit(edited.list, edited.place, null);
  return (
    <>
      <Tool id="up" words="↑" label="Move up" off={up === null} onUse={() => go(up)} />
      <Tool id="down" words="↓" label="Move down" off={down === null} onUse={() => go(down)} />
    </>
  );
}

function GroupTools<T extends Nest>({ order, place }: ToolsProps<T>) {
  const above = takeIn(order.rows, place, 'up');
  const below = takeIn(order.rows, place, 'down');
  const go = (edited: Edited<T> | null) =>
    edited !== null && order.edit(edited.list, edited.place, null);
  return (
    <>
      <Tool id="above" words="Take in the row above" off={above === null} onUse={() => go(above)} />
      <Tool id="below" words="Take in the row below" off={below === null} onUse={() => go(below)} />
      <Tool
        id="apart"
        words="Take apart"
        onUse={() => order.edit(unwrapRow(order.rows, place), null, null)}
      />
    </>
  );
}

interface ToolProps {
  readonly id: string;
  readonly words: string;
  readonly label?: string;
  readonly off?: boolean;
  readonly onUse: () => void;
}

function Tool({ id, words, label, off, onUse }: ToolProps) {
  return (
    <button
      type="button"
      class={label === undefined ? 'button tool' : 'button tool tool-arrow'}
      data-anchor={`tool ${id}`}
      {...(label === undefined ? {} : { 'aria-label': label })}
      disabled={off === true}
      onClick={onUse}
    >
      {words}
    </button>
  );
}

interface AddBarProps<T extends Nest> {
  readonly order: OrderRows<T>;
  /** Where the new row will stand. */
  readonly place: Place;
  readonly label: string;
}

export function AddBar<T extends Nest>({ order, place, label }: AddBarProps<T>) {
  const last = place.at(-1) ?? 0;
  const before = last === 0 ? undefined : rowAt(order.rows, [...place.slice(0, -1), last - 1]);
  return (
    <fieldset class="order-add">
      <legend class="field-label">{label}</legend>
      {ROW_KINDS.map((kind) => (
        <button
          type="button"
          key={kind}
          class="button"
          onClick={() =>
            order.edit(insertRow(order.rows, place, order.trade.make(kind, before)), place, null)
          }
        >
          {KIND_WORDS[kind]}
        </button>
      ))}
    </fieldset>
  );
}
