/** Planned and woven side by side, a row a block, with a picture of each. */

import type {
  BlockAgainstPlan,
  PieceAgainstPlan,
  Told,
} from '../../../core/journal/againstPlan/againstPlan.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { weftBands } from '../../../core/planner/orderBands.ts';
import { t } from '../../language/t.ts';
import { BlockLines } from '../../parts/blockLines.tsx';
import type { Session } from '../../state.ts';
import { gradientOf } from '../plan/rows/orderStrip.tsx';
import { amountWords, changeWords, roleWords } from './words.ts';

export interface AgainstTableProps {
  readonly now: Session;
  readonly piece: PieceAgainstPlan;
}

export function AgainstTable({ now, piece }: AgainstTableProps) {
  const { units } = now.plan;
  const longest = Math.max(
    1,
    ...piece.rows.flatMap(({ planned, woven }) => [
      planned?.loomLength ?? 0,
      woven?.loomLength ?? 0,
    ]),
  );
  return (
    <table class="against-table">
      <thead>
        <tr>
          <th scope="col">{t('Planned')}</th>
          <th scope="col">{t('Woven')}</th>
          <th scope="col">{t('Difference')}</th>
        </tr>
      </thead>
      <tbody>
        {piece.rows.map((row, i) => (
          <Row key={i} now={now} row={row} longest={longest} />
        ))}
      </tbody>
      <tfoot>
        <tr>
          <td data-of={t('Planned')}>
            {piece.planned === null ? '–' : amountWords(piece.planned, units)}
          </td>
          <td data-of={t('Woven')}>{amountWords(piece.woven, units)}</td>
          <td>{t('In all')}</td>
        </tr>
      </tfoot>
    </table>
  );
}

interface RowProps {
  readonly now: Session;
  readonly row: BlockAgainstPlan;
  /** Loom length of the longest block, beside which the others are drawn. */
  readonly longest: number;
}

function Row({ now, row, longest }: RowProps) {
  const name = roleWords(row);
  return (
    <tr data-change={row.change}>
      <td data-of={t('Planned')}>
        {name === '' ? null : <p class="against-name">{name}</p>}
        <Cell told={row.planned} plan={now.base} longest={longest} />
      </td>
      <td data-of={t('Woven')}>
        <Cell told={row.woven} plan={now.plan} longest={longest} />
      </td>
      <td class="against-change">
        {name === '' ? null : <span class="against-again">{t('{name}:', { name })} </span>}
        {changeWords(row, now.plan.units)}
      </td>
    </tr>
  );
}

interface CellProps {
  readonly told: Told | null;
  readonly plan: Plan;
  readonly longest: number;
}

function Cell({ told, plan, longest }: CellProps) {
  if (told === null) return <p class="against-none">–</p>;
  const { yarns, units, weaving } = plan;
  const bands = weftBands(told.blocks, { yarns, pickSpacing: weaving.pickSpacing });
  return (
    <div class="against-cell">
      {bands === null || bands.length === 0 ? null : (
        <div
          class="against-bands"
          style={{
            width: `${Math.max(6, (100 * told.loomLength) / longest)}%`,
            backgroundImage: gradientOf(bands, yarns),
          }}
        />
      )}
      <BlockLines blocks={told.blocks} yarns={yarns} units={units} />
      {told.picks === 0 ? null : <p class="against-amount">{amountWords(told, units)}</p>}
    </div>
  );
}
