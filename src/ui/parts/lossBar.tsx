/** That something saved is gone, and what to do about it. */
import type { Loss } from '../../store/witness.ts';
import { startAnew } from '../device/windows.ts';
import { t } from '../language/t.ts';

export function LossBar({ loss }: { readonly loss: Loss }) {
  return (
    <div class="bar trouble" role="alert">
      <p>{lossWords(loss)}</p>
      <button type="button" class="button" onClick={startAnew}>
        {t('Start anew')}
      </button>
    </div>
  );
}

function lossWords({ was, left }: Loss): string {
  const all = t(
    '{warps, plural, one {# warp} other {# warps}} with {events, plural, one {# entry} other {# entries}} of weaving',
    { warps: was.warps, events: was.events },
  );
  return left.events === 0 && left.warps === 0
    ? t(
        'Everything Fellmark had saved on this device is gone: {all}. If you have a backup file, open it before anything else.',
        { all },
      )
    : t(
        'Part of what Fellmark had saved on this device is gone: there were {all}, {left, plural, one {# entry is} other {# entries are}} left. If you have a backup file, open it before anything else.',
        { all, left: left.events },
      );
}
