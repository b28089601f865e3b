/** What is left is reckoned after the bench itself stands. */
import { lazily } from '../../../parts/lazily.tsx';

export const LeftLine = lazily(async () => (await import('./leftLine.tsx')).LeftLine);
