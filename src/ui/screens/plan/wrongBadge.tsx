/** How many problems lie behind a button that leads to them; nothing where all is well. */
import { t } from '../../language/t.ts';
export function WrongBadge({ wrong }: { readonly wrong: number }) {
  if (wrong === 0) return null;
  return (
    <>
      {' '}
      <span class="part-wrong">{wrong}</span>
      <span class="unseen"> {t('to mend')}</span>
    </>
  );
}
