/** An order of stripes or blocks: how it will look, its rows, and the same in one line of text. */
import { useMemo, useRef, useState } from 'preact/hooks';
import { ok, type Result } from '../../../../core/measure/result.ts';
import { type Nest, type Place, rowAt } from '../../../../core/plan/listEdits.ts';
import type { Yarn } from '../../../../core/plan/plan.ts';
import type { TextFault } from '../../../../core/plan/text/faults.ts';
import '../../../style/rows.css';
import { t } from '../../../language/t.ts';
import { useHeldPlace } from './heldPlace.ts';
import { OrderLine } from './orderLine.tsx';
import type { OrderRows, RowTrade } from './orderRows.ts';
import { OrderStrip } from './orderStrip.tsx';
import { RowList } from './rowList.tsx';
import { AddBar } from './rowTools.tsx';

export interface OrderEditorProps<T extends Nest> {
  readonly rows: readonly T[];
  readonly yarns: readonly Yarn[];
  readonly path: string;
  /** Edits with the same `about` in a row are one step to undo; each with null is one of its own. */
  readonly onChange: (rows: readonly T[], about: string | null) => void;
  readonly trade: RowTrade<T>;
  readonly thread: 'end' | 'pick';
  readonly hint: string;
  readonly format: (rows: readonly T[]) => string;
  /** Reads a line over the rows as they were when typing began. */
  readonly parse: (text: string, before: readonly T[]) => Result<readonly T[], TextFault>;
}

export function OrderEditor<T extends Nest>(props: OrderEditorProps<T>) {
  const { rows, yarns, path, onChange, trade, thread } = props;
  const [chosen, show] = useState<Place | null>(null);
  const root = useRef<HTMLDivElement>(null);
  const hold = useHeldPlace(root);
  const bands = useMemo(() => trade.bands(rows), [rows, trade]);
  const open = chosen === null || rowAt(rows, chosen) === undefined ? null : chosen;
  const order: OrderRows<T> = {
    trade,
    rows,
    yarns,
    path,
    open,
    show,
    edit: (next, place, about) => {
      show(place);
      onChange(next, about);
    },
  };
  return (
    <div class="order" ref={root} onClickCapture={hold}>
      <OrderStrip bands={bands} yarns={yarns} thread={thread} />
      <RowList order={order} rows={rows} outer={[]} />
      <AddBar order={order} place={[rows.length]} label={t('Add at the end')} />
      <Line {...props} />
    </div>
  );
}

function Line<T extends Nest>({ rows, path, onChange, hint, format, parse }: OrderEditorProps<T>) {
  const before = useRef(rows);
  const text = useMemo(() => format(rows), [rows, format]);
  return (
    <OrderLine
      text={text}
      hint={hint}
      onFocus={() => {
        before.current = rows;
      }}
      onText={(typed) => {
        const read = parse(typed, before.current);
        if (!read.ok) return read;
        onChange(read.value, `${path}.text`);
        return ok(format(read.value));
      }}
    />
  );
}
