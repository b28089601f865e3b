/** A piece at a glance: washed, whole, with its fringes and hems. */
import { useMemo } from 'preact/hooks';
import { NO_ADJUSTMENTS } from '../../core/bench/adjustments.ts';
import { layCourse } from '../../core/bench/course.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { type ClothPlan, clothPlan } from '../../core/planner/clothPlan.ts';
import { SHARP } from '../../core/planner/eye.ts';
import { isDark } from '../device/theme.ts';
import '../style/viewer.css';
import { Canvas, type CanvasProps } from './canvas.tsx';
import type { Box } from './useBox.ts';
import { clothWords } from './viewer/clothWords.ts';
import { pageColours } from './viewer/colours.ts';
import { drawMarks } from './viewer/marks.ts';
import { paintGlimpse } from './viewer/paintGlimpse.ts';

export interface ClothGlanceProps {
  readonly plan: Plan;
  /** Counted from 0. */
  readonly piece: number;
}

/**
 * Fills its parent, which must have a size of its own. Laid out, told in words and painted behind the
 * frame with the figures, and only when something has changed that it shows.
 */
export function ClothGlance({ plan, piece }: ClothGlanceProps) {
  const { loom, yarns, warp, weaving, allowances, pieces } = plan;
  // Read, so that it is painted anew in the other theme's colours.
  const theme = isDark.value ? 'dark' : 'light';
  const glance = useMemo(
    () => glanceOf({ ...plan, pieces: pieces.slice(piece, piece + 1) }),
    [loom, yarns, warp, weaving, allowances, pieces[piece]],
  );
  return <Canvas key={theme} class="cloth-glance" {...glance} when="after" />;
}

function glanceOf(plan: Plan): Pick<CanvasProps, 'label' | 'paint'> {
  let laid: ClothPlan | null = null;
  const cloth = () => {
    laid ??= clothPlan(layCourse(plan, NO_ADJUSTMENTS), { state: 'washed' });
    return laid;
  };
  const paint = (ctx: CanvasRenderingContext2D, room: Box) => {
    const { width, height } = cloth();
    if (room.width > room.height && height > width) paintLying(ctx, cloth(), room);
    else ctx.drawImage(upright(cloth(), room), 0, 0, room.width, room.height);
  };
  return { label: () => clothWords(cloth()), paint };
}

/** A long piece in a wide place lies on its side, its beginning at the left. */
function paintLying(ctx: CanvasRenderingContext2D, cloth: ClothPlan, room: Box): void {
  const { width, height, dpr } = room;
  const picture = upright(cloth, { width: height, height: width, dpr });
  ctx.save();
  ctx.translate(width, 0);
  ctx.rotate(Math.PI / 2);
  // Pixel for pixel: a quarter turn needs no means of them.
  ctx.imageSmoothingEnabled = false;
  ctx.drawImage(picture, 0, 0, height, width);
  ctx.restore();
}

/** CSS pixels left free round the cloth. */
const MARGIN = 6;

function upright(cloth: ClothPlan, { width, height, dpr }: Box): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(width * dpr));
  canvas.height = Math.max(1, Math.round(height * dpr));
  const ctx = canvas.getContext('2d', { alpha: false });
  const [wide, high] = [width - 2 * MARGIN, height - 2 * MARGIN];
  if (ctx === null || wide <= 0 || high <= 0) return canvas;
  const look = pageColours();
  const scale = Math.min(wide / cloth.width, high / cloth.height);
  const [x, y] = [(width - cloth.width * scale) / 2, (height - cloth.height * scale) / 2];
  const corner = { left: -x / scale, top: -y / scale, scale: scale * dpr };
  const glimpse = { ...corner, width: canvas.width, height: canvas.height };
  paintGlimpse(ctx, cloth, glimpse, { blur: SHARP, ground: look.groundPixel });
  ctx.setTransform(dpr, 0, 0, dpr, 0, 0);
  drawMarks(ctx, cloth, { x, y, scale, width, height }, { ink: look.ink, line: 1 });
  return canvas;
}
