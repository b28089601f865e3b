import { inOurNumbers } from '../format.ts';
import { t } from '../language/t.ts';

/** Of a file, or of what a device has room for; bytes, rounded up. */
export function sizeWords(bytes: number): string {
  return bytes < 100_000
    ? t('{n} kB', { n: Math.ceil(bytes / 1000) })
    : t('{n} MB', { n: inOurNumbers((Math.ceil(bytes / 100_000) / 10).toFixed(1)) });
}
