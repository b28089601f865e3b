/** The head of a table of sizes: as wished, as reckoned before, as measured. */
import { t } from '../language/t.ts';

export function SizesHead() {
  return (
    <thead>
      <tr>
        <td />
        <th scope="col">{t('Wished')}</th>
        <th scope="col">{t('Forecast')}</th>
        <th scope="col">{t('Real')}</th>
      </tr>
    </thead>
  );
}
