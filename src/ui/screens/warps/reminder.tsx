/** Says when much was woven since a backup last left this device. Never over anything else. */
import { type Reminder as Due, reminderOf, workTogether } from '../../../core/backup/reminder.ts';
import { now, showKeepSafe } from '../../actions.ts';
import { count } from '../../format.ts';
import { exportedAt, type WarpCard } from '../../state.ts';

export function Reminder({ cards }: { readonly cards: readonly WarpCard[] }) {
  const work = workTogether(cards.map((card) => card.work));
  const due = reminderOf(work, exportedAt.value, now());
  if (due === null) return null;
  return (
    <div class="offer">
      <p>{reminderWords(due, exportedAt.value)}</p>
      <button type="button" class="button" onClick={showKeepSafe}>
        Save a backup
      </button>
    </div>
  );
}

function reminderWords({ picks, days }: Due, at: string | null): string {
  const woven = picks === 0 ? 'The log has grown' : `${count(picks, 'pick')} woven`;
  const ago = days === 0 ? '' : `, ${count(days, 'day')} ago`;
  return at === null
    ? `${woven}, and no backup has left this device yet.`
    : `${woven} since the last backup${ago}.`;
}
