/** An order as it will be seen: its bands side by side, lettered where there is room. */
import { countsBy } from '../../../../core/measure/runs.ts';
import type { Letter, Yarn } from '../../../../core/plan/plan.ts';
import type { Band } from '../../../../core/planner/orderBands.ts';
import { t } from '../../../language/t.ts';
import { Canvas } from '../../../parts/canvas.tsx';
import { Swatch } from '../../../parts/swatch.tsx';
import type { Box } from '../../../parts/useBox.ts';
import { yarnOf } from './orderRows.ts';

export interface OrderStripProps {
  readonly bands: readonly Band[] | null;
  readonly yarns: readonly Yarn[];
  readonly thread: 'end' | 'pick';
}

/** CSS pixels: from here on a band has room for its letter, its count, its single threads. */
const LETTER_FROM = 24;
const COUNT_FROM = 34;
const THREADS_FROM = 3;
/** So many bands are read out: nobody listens to five hundred. */
const MOST_SAID = 30;
/** So many are shown in little; more would be thinner than a pixel. */
const MOST_IN_LITTLE = 128;

export function OrderStrip({ bands, yarns, thread }: OrderStripProps) {
  if (bands === null) {
    return (
      <p class="hint">{t('The stripes appear here when every number below is a whole one.')}</p>
    );
  }
  return (
    <figure class="order-strip">
      <Canvas
        label={t('The stripes as they will be seen: {bands}', { bands: said(bands) })}
        paint={(ctx, room) => paintBands(ctx, room, bands, yarns)}
      />
      <Tally bands={bands} yarns={yarns} thread={thread} />
    </figure>
  );
}

/** `24 B, 2 A, 2 B …` */
function said(bands: readonly Band[]): string {
  const first = bands.slice(0, MOST_SAID).map(({ yarn, threads }) => `${threads} ${yarn}`);
  return `${first.join(', ')}${bands.length > MOST_SAID ? ' …' : ''}`;
}

function Tally({ bands, yarns, thread }: OrderStripProps & { readonly bands: readonly Band[] }) {
  const counts = countsBy(bands.map(({ yarn, threads }) => ({ of: yarn, count: threads })));
  const all = [...counts.values()].reduce((sum, it) => sum + it, 0);
  return (
    <figcaption class="order-tally">
      <span>
        {t('{n, plural, one {# stripe} other {# stripes}}', { n: bands.length })},{' '}
        <strong>
          {thread === 'end'
            ? t('{n, plural, one {# end} other {# ends}}', { n: all })
            : t('{n, plural, one {# pick} other {# picks}}', { n: all })}
        </strong>
      </span>
      {[...counts].map(([letter, threads]) => (
        <span key={letter} class="tally-yarn">
          <Swatch yarn={yarnOf(yarns, letter)} />
          <span class="unseen">{letter}</span>
          {threads}
        </span>
      ))}
    </figcaption>
  );
}

function paintBands(
  ctx: CanvasRenderingContext2D,
  { width, height }: Box,
  bands: readonly Band[],
  yarns: readonly Yarn[],
): void {
  const colours = new Map<Letter, string>(yarns.map((yarn) => [yarn.letter, yarn.colour]));
  const total = bands.reduce((sum, band) => sum + band.extent, 0);
  const scale = total === 0 ? 0 : width / total;
  ctx.clearRect(0, 0, width, height);
  let left = 0;
  for (const band of bands) {
    const wide = band.extent * scale;
    ctx.fillStyle = colours.get(band.yarn) ?? '#8a8a8a';
    // A hair wider than the band: two half-covered pixels would let the ground show through.
    ctx.fillRect(left, 0, wide + 0.5, height);
    paintThreads(ctx, left, wide / band.threads, band.threads, height);
    left += wide;
  }
  const { plate, ink } = platesOf(ctx.canvas);
  left = 0;
  for (const band of bands) {
    const wide = band.extent * scale;
    if (wide >= LETTER_FROM) {
      paintLetter(ctx, left + wide / 2, height / 2, band, wide, { plate, ink });
    }
    left += wide;
  }
}

function paintThreads(
  ctx: CanvasRenderingContext2D,
  left: number,
  wide: number,
  threads: number,
  height: number,
): void {
  if (wide < THREADS_FROM) return;
  ctx.fillStyle = 'rgb(0 0 0 / 16%)';
  for (let i = 0; i < threads; i++) ctx.fillRect(left + (i + 1) * wide - 0.75, 0, 0.75, height);
}

interface Plates {
  readonly plate: string;
  readonly ink: string;
}

/** The colours of letters on swatches, as the theme has them. */
function platesOf(canvas: HTMLCanvasElement): Plates {
  const style = getComputedStyle(canvas);
  return { plate: style.getPropertyValue('--panel'), ink: style.getPropertyValue('--ink') };
}

/** A letter on a plate, as on every swatch, and below it the count where it fits. */
function paintLetter(
  ctx: CanvasRenderingContext2D,
  x: number,
  y: number,
  band: Band,
  wide: number,
  { plate, ink }: Plates,
): void {
  const withCount = wide >= COUNT_FROM;
  const half = withCount ? 15 : 10;
  ctx.fillStyle = plate;
  ctx.beginPath();
  ctx.roundRect(x - half, y - (withCount ? 21 : 11), 2 * half, withCount ? 42 : 22, 8);
  ctx.fill();
  ctx.fillStyle = ink;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  // not for a reader
  ctx.font = '700 17px system-ui, sans-serif';
  ctx.fillText(band.yarn, x, y - (withCount ? 9 : 0) + 1);
  if (!withCount) return;
  // not for a reader
  ctx.font = '600 14px system-ui, sans-serif';
  ctx.fillText(String(band.threads), x, y + 10, 2 * half - 4);
}

export interface SliverProps extends Pick<OrderStripProps, 'bands' | 'yarns'> {
  /** How long beside the largest of the list, 0 to 1. */
  readonly share: number;
}

/** A row's own bands, small: as long as its share, and as many as can be told apart. */
export function Sliver({ bands, yarns, share }: SliverProps) {
  if (bands === null) return null;
  const style = {
    width: `${share * 100}%`,
    backgroundImage: gradientOf(bands, yarns),
  };
  return (
    <span class="row-sliver" aria-hidden="true">
      <span style={style} />
    </span>
  );
}

/** Bands side by side as a background. */
export function gradientOf(all: readonly Band[], yarns: readonly Yarn[]): string {
  const bands = all.slice(0, MOST_IN_LITTLE);
  const total = bands.reduce((sum, band) => sum + band.extent, 0);
  let at = 0;
  const stops = bands.map((band) => {
    const from = (at / total) * 100;
    at += band.extent;
    return `${yarnOf(yarns, band.yarn).colour} ${from}% ${(at / total) * 100}%`;
  });
  return `linear-gradient(90deg, ${stops.join(', ')})`;
}
