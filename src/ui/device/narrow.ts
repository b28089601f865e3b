/** Whether the screen is as narrow as a phone's, now: the limit is that of the style sheets. */
import { signal } from '@preact/signals';

const query = matchMedia('(max-width: 620px)');
export const isNarrow = signal(query.matches);

query.addEventListener('change', () => {
  isNarrow.value = query.matches;
});
