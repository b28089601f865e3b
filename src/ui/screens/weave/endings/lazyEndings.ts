/** The endings are reckoned only when somebody asks. */
import { lazily } from '../../../parts/lazily.tsx';

export const EndingsPage = lazily(async () => (await import('./endingsPage.tsx')).EndingsPage);
