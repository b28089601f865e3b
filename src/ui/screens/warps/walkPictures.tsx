/** Four small pictures of the work; the words beside them say the same, so nobody needs to see them. */
import type { ComponentChildren } from 'preact';

const range = (from: number, to: number, step: number) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, at) => from + at * step);

const upright = (xs: readonly number[], top: number, bottom: number) =>
  xs.map((x) => `M${x} ${top}V${bottom}`).join('');
const across = (ys: readonly number[], left: number, right: number) =>
  ys.map((y) => `M${left} ${y}H${right}`).join('');

function Picture({ children }: { readonly children: ComponentChildren }) {
  return (
    <svg class="walk-picture" viewBox="0 0 240 150" aria-hidden="true">
      {children}
    </svg>
  );
}

/** Two cones, and what is to become of them. */
export function PlanPicture() {
  return (
    <Picture>
      <path class="walk-one" d="M20 120L34 44H58L72 120Z" />
      <path class="walk-other" d="M80 120L92 62H112L124 120Z" />
      <path class="walk-line" d="M14 120H128" />
      <path class="walk-cloth" d="M150 34H226V116H150Z" />
      <path class="walk-band" d="M150 48H226M150 60H226M150 102H226" />
      <path
        class="walk-line"
        d="M150 130H226M150 125V135M226 125V135M138 34V116M133 34H143M133 116H143"
      />
    </Picture>
  );
}

/** Ends through the heddle, the colours side by side. */
export function WarpPicture() {
  const first = [...range(30, 80, 10), ...range(160, 210, 10)];
  return (
    <Picture>
      <path class="walk-ends-one" d={upright(first, 14, 136)} />
      <path class="walk-ends-other" d={upright(range(90, 150, 10), 14, 136)} />
      <path class="walk-heddle" d="M16 62H224V92H16Z" />
      <path class="walk-slot" d={upright(range(30, 210, 10), 67, 87)} />
    </Picture>
  );
}

/** Cloth at the fell, the shuttle on its way. */
export function WeavePicture() {
  return (
    <Picture>
      <path class="walk-ends-one" d={upright(range(30, 210, 10), 10, 80)} />
      <path class="walk-cloth" d="M26 80H214V140H26Z" />
      <path class="walk-band" d="M26 88H214M26 96H214M26 120H214M26 128H214" />
      <path class="walk-other" d="M96 46Q120 30 176 46Q120 62 96 46Z" />
      <path class="walk-line" d="M96 46H40V78" />
    </Picture>
  );
}

/** A tape along the cloth, and what is left of the warp. */
export function AfterPicture() {
  return (
    <Picture>
      <path class="walk-cloth" d="M26 20H150V136H26Z" />
      <path class="walk-band" d={across([30, 42, 112, 124], 26, 150)} />
      <path class="walk-tape" d="M170 20H206V136H170Z" />
      <path class="walk-line" d={across(range(30, 126, 12), 170, 184)} />
      <path class="walk-line" d={across([42, 78, 114], 170, 194)} />
    </Picture>
  );
}
