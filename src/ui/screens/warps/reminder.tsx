/** Says when much was woven since a backup last left this device. Never over anything else. */
import { type Reminder as Due, reminderOf, workTogether } from '../../../core/backup/reminder.ts';
import { now, showKeepSafe } from '../../actions.ts';
import { t } from '../../language/t.ts';
import { exportedAt, type WarpCard } from '../../state.ts';

export function Reminder({ cards }: { readonly cards: readonly WarpCard[] }) {
  const work = workTogether(cards.map((card) => card.work));
  const due = reminderOf(work, exportedAt.value, now());
  if (due === null) return null;
  return (
    <div class="offer">
      <p>{reminderWords(due, exportedAt.value)}</p>
      <button type="button" class="button" onClick={showKeepSafe}>
        {t('Save a backup')}
      </button>
    </div>
  );
}

function reminderWords({ picks, days }: Due, at: string | null): string {
  if (at === null)
    return t(
      '{picks, plural, =0 {The log has grown} one {# pick woven} other {# picks woven}}, and no backup has left this device yet.',
      { picks },
    );
  return days === 0
    ? t(
        '{picks, plural, =0 {The log has grown} one {# pick woven} other {# picks woven}} since the last backup.',
        { picks },
      )
    : t(
        '{picks, plural, =0 {The log has grown} one {# pick woven} other {# picks woven}} since the last backup, {days, plural, one {# day} other {# days}} ago.',
        { picks, days },
      );
}
