/** The heddle as the weaver sees it: the whole of it in little, and the step to do large. */
import { useMemo } from 'preact/hooks';
import { pixelOf } from '../../../core/plan/clothPicture.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { isDark } from '../../device/theme.ts';
import { t } from '../../language/t.ts';
import { Canvas } from '../../parts/canvas.tsx';
import { isLight } from '../../parts/cloth/colour.ts';
import { styleColour } from '../../parts/styleColour.ts';
import type { Box } from '../../parts/useBox.ts';
import { columnsOf, windowOn } from './columns.ts';
import { type HeddlePalette, paintHeddle, type YarnLook } from './heddlePaint.ts';
import { sideSeen, type Work } from './stepWords.ts';
import { paintStrip, shareOf } from './stripPaint.ts';

/** Columns shown large at least, and beside those of the step. */
const LEAST = 20;
const BESIDE = 4;

export function HeddleView({ work, done }: { readonly work: Work; readonly done: number }) {
  const { plan, seenFrom } = work;
  const columns = useMemo(() => columnsOf(work, done), [work.list, seenFrom, done]);
  const looks = useMemo(() => looksOf(plan), [plan]);
  const dark = isDark.value;
  const palette = useMemo(readPalette, [dark]);
  const shown = windowOn(columns, LEAST, BESIDE);
  const share = shareSeen(work, columns);
  const hasStep = columns.some((column) => column.now);
  const paintAll = (ctx: CanvasRenderingContext2D, { width, height }: Box) =>
    paintStrip(ctx, { width, height, columns, ...share, looks, palette });
  const paintPart = (ctx: CanvasRenderingContext2D, { width, height }: Box) =>
    paintHeddle(ctx, {
      width,
      height,
      columns: columns.slice(shown.from, shown.to),
      lowerShaft: seenFrom === 'front' ? 1 : 2,
      looks,
      palette,
    });
  return (
    <figure class="warp-view">
      <Canvas
        class="warp-strip"
        label={t('The whole warp, from the {from, select, front {front} other {back}}', {
          from: seenFrom,
        })}
        paint={paintAll}
      />
      {hasStep ? <Canvas class="warp-part" label={partLabel(work)} paint={paintPart} /> : null}
      <figcaption>{captionOf(work)}</figcaption>
    </figure>
  );
}

function partLabel({ plan }: Work): string {
  return plan.loom.kind === 'shaft'
    ? t('The shafts and the reed at this step')
    : t('The slots and holes at this step');
}

function captionOf(work: Work): string {
  return t(
    'From the {from, select, front {front} other {back}} · {loom, select, shaft {dents} other {slots}} from the {side, select, left {left} other {right}}',
    { from: work.seenFrom, loom: work.plan.loom.kind, side: sideSeen(work, 'left') },
  );
}

function shareSeen(work: Work, columns: readonly { readonly number: number }[]) {
  const used = columns.reduce((most, column) => Math.max(most, column.number), 0);
  const { from, to } = shareOf(work.list.start, used);
  return work.seenFrom === work.list.viewpoint ? { from, to } : { from: 1 - to, to: 1 - from };
}

function looksOf(plan: Plan): ReadonlyMap<string, YarnLook> {
  return new Map(
    plan.yarns.map(({ letter, colour }) => [letter, { colour, isLight: isLight(pixelOf(colour)) }]),
  );
}

function readPalette(): HeddlePalette {
  return {
    ground: styleColour('--panel'),
    ink: styleColour('--ink'),
    quiet: styleColour('--quiet'),
    line: styleColour('--line'),
    wood: styleColour('--wood'),
    due: styleColour('--due'),
  };
}
