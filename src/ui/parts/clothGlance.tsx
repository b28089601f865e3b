/** A piece, or the whole warp cut apart, at a glance: washed, whole, with its fringes and hems. */
import { useMemo } from 'preact/hooks';
import { NO_ADJUSTMENTS } from '../../core/bench/adjustments.ts';
import { type Course, layCourse } from '../../core/bench/course.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { type ClothPlan, clothPlan } from '../../core/planner/clothPlan.ts';
import { SHARP } from '../../core/planner/eye.ts';
import { isDark } from '../device/theme.ts';
import '../style/viewer.css';
import { Canvas, type Room } from './canvas.tsx';
import { pageColours } from './viewer/colours.ts';
import { clothWords } from './viewer/distance.ts';
import { drawMarks } from './viewer/marks.ts';
import { paintGlimpse } from './viewer/paintGlimpse.ts';

export interface ClothGlanceProps {
  readonly plan: Plan;
  /** Counted from 0; all pieces when absent. */
  readonly piece?: number;
  /** The course of the plan without adjustments, where it is laid out already. */
  readonly course?: Course;
}

/** Fills its parent, which must have a size of its own. */
export function ClothGlance({ plan, piece, course }: ClothGlanceProps) {
  const laid = useMemo(() => course ?? layCourse(plan, NO_ADJUSTMENTS), [plan, course]);
  const words = useMemo(() => clothWords(glanceOf(laid, piece, 1)), [laid, piece]);
  // Read, so that it is painted anew in the other theme's colours.
  const theme = isDark.value ? 'dark' : 'light';
  const paint = (ctx: CanvasRenderingContext2D, room: Room) =>
    paintGlance(ctx, glanceOf(laid, piece, room.width / room.height), room);
  return <Canvas key={theme} class="cloth-glance" label={words} paint={paint} />;
}

function glanceOf(course: Course, piece: number | undefined, aspect: number): ClothPlan {
  return clothPlan(course, { state: 'washed', aspect, ...(piece === undefined ? {} : { piece }) });
}

/** CSS pixels left free round the cloth. */
const MARGIN = 6;

function paintGlance(ctx: CanvasRenderingContext2D, cloth: ClothPlan, room: Room): void {
  const { width, height, dpr } = room;
  if (width <= 2 * MARGIN || height <= 2 * MARGIN) return;
  const look = pageColours();
  const scale = Math.min((width - 2 * MARGIN) / cloth.width, (height - 2 * MARGIN) / cloth.height);
  const [x, y] = [(width - cloth.width * scale) / 2, (height - cloth.height * scale) / 2];
  const size = { width: Math.round(width * dpr), height: Math.round(height * dpr) };
  const corner = { left: -x / scale, top: -y / scale, scale: scale * dpr };
  ctx.setTransform(1, 0, 0, 1, 0, 0);
  paintGlimpse(ctx, cloth, { ...corner, ...size }, { blur: SHARP, ground: look.groundPixel });
  ctx.setTransform(dpr, 0, 0, dpr, 0, 0);
  drawMarks(ctx, cloth, { x, y, scale, width, height }, { ink: look.ink, line: 1 });
}
