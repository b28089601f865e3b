/** “today, 14:30”, “yesterday, 9:05”, “27 Nov 2026, 14:30”, by this device’s clock. */
import { language, t } from '../language/t.ts';
export function whenWords(at: string, now: Date): string {
  const then = new Date(at);
  const time = then.toLocaleTimeString(language, { hour: 'numeric', minute: '2-digit' });
  const dayBefore = new Date(now.getFullYear(), now.getMonth(), now.getDate() - 1);
  if (then.toDateString() === now.toDateString()) return t('today, {time}', { time });
  if (then.toDateString() === dayBefore.toDateString()) return t('yesterday, {time}', { time });
  const day = { day: 'numeric', month: 'short', year: 'numeric' } as const;
  return `${then.toLocaleDateString(language, day)}, ${time}`;
}
