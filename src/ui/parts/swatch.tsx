/** A yarn's colour with its letter on a plate, so that the letter reads the same on every colour. */
import type { Yarn } from '../../core/plan/plan.ts';

export function Swatch({ yarn, size }: { readonly yarn: Yarn; readonly size?: 'big' }) {
  return (
    <span
      class={size === undefined ? 'swatch' : `swatch ${size}`}
      style={{ backgroundColor: yarn.colour }}
      aria-hidden="true"
    >
      <span class="swatch-letter">{yarn.letter}</span>
    </span>
  );
}
