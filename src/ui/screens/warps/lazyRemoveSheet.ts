/** Taking away is asked for rarely, and needs what keeps a snapshot first. */
import { lazily } from '../../parts/lazily.tsx';

export const RemoveSheet = lazily(async () => (await import('./removeSheet.tsx')).RemoveSheet);
