/** Shares of a whole as the weaver reads them. */
import { inOurNumbers } from './format.ts';

/** A share as per cent to one place, with a true minus and held together: 0.0556 → `5.6 %`. */
export function percent(share: number): string {
  // 6.25 % is a hair less to the machine.
  const tenths = Math.round(Math.abs(share) * 1000 + 1e-9);
  return inOurNumbers(`${share < 0 && tenths > 0 ? '−' : ''}${(tenths / 10).toFixed(1)}\u00a0%`);
}
