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
import { t } from '../../../language/t.ts';
import { KIND_WORDS, type OrderRows, ROW_KINDS } from './orderRows.ts';

interface ToolsProps<T extends Nest> {
  readonly order: OrderRows<T>;
  readonly place: Place;
}

/** Moving, copying and removing: at the top of an open row, so that they stay where the row is. */
export function RowTools<T extends Nest>({ order, place }: ToolsProps<T>) {
  const { rows, edit } = order;
  const go = (edited: Edited<T> | null) => edited !== null && edit(edited.list, edited.place, null);
  const up = moveRow(rows, place, 'up');
  const down = moveRow(rows, place, 'down');
  return (
    <fieldset class="row-tools" aria-label={t('This row')}>
      <Tool id="up" words="↑" label={t('Move up')} off={up === null} onUse={() => go(up)} />
      <Tool id="down" words="↓" label={t('Move down')} off={down === null} onUse={() => go(down)} />
      <Tool id="copy" words={t('Copy')} onUse={() => go(copyRow(rows, place))} />
      <Tool
        id="remove"
        words={t('Remove')}
        onUse={() => edit(removeRow(rows, place), null, null)}
      />
    </fieldset>
  );
}

/** Putting a row into a group of its own, and what a group can take in or give back. */
export function GroupTools<T extends Nest>({ order, place }: ToolsProps<T>) {
  const { rows, edit, trade } = order;
  const wrap = (kind: 'repeat' | 'mirror') =>
    edit(
      wrapRow(rows, place, (inside) => trade.wrap(kind, inside)),
      place,
      null,
    );
  const row = rowAt(rows, place);
  const isGroup = row !== undefined && rowsOf(row) !== null;
  return (
    <fieldset class="row-tools group-tools" aria-label={t('Repeats and mirrors')}>
      <Tool id="repeat" words={t('Repeat this')} onUse={() => wrap('repeat')} />
      <Tool id="mirror" words={t('Mirror this')} onUse={() => wrap('mirror')} />
      {isGroup ? <InsideTools order={order} place={place} /> : null}
    </fieldset>
  );
}

function InsideTools<T extends Nest>({ order, place }: ToolsProps<T>) {
  const { rows, edit } = order;
  const above = takeIn(rows, place, 'up');
  const below = takeIn(rows, place, 'down');
  const go = (edited: Edited<T> | null) => edited !== null && edit(edited.list, edited.place, null);
  return (
    <>
      <Tool
        id="apart"
        words={t('Take apart')}
        onUse={() => edit(unwrapRow(rows, place), null, null)}
      />
      <Tool
        id="above"
        words={t('Take in row above')}
        off={above === null}
        onUse={() => go(above)}
      />
      <Tool
        id="below"
        words={t('Take in row below')}
        off={below === null}
        onUse={() => go(below)}
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
      data-anchor={`tool-${id}`}
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
  const { lone, make } = order.trade;
  const last = place.at(-1) ?? 0;
  const before = last === 0 ? undefined : rowAt(order.rows, [...place.slice(0, -1), last - 1]);
  const add = (row: T) => order.edit(insertRow(order.rows, place, row), place, null);
  return (
    <fieldset class="order-add">
      <legend class="field-label">{label}</legend>
      {ROW_KINDS.map((kind) => (
        <button type="button" key={kind} class="button" onClick={() => add(make(kind, before))}>
          {KIND_WORDS[kind]}
        </button>
      ))}
      {lone === undefined || place.length > 1 ? null : (
        <button type="button" class="button" onClick={() => add(lone.make())}>
          {lone.words}
        </button>
      )}
    </fieldset>
  );
}
