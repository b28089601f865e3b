/** Some picks of a piece as a picture that lies on its side, the first of them at the left. */
import { useMemo } from 'preact/hooks';
import type { Stretch } from '../../core/bench/byEye/stretch.ts';
import type { Course } from '../../core/bench/course.ts';
import { endsPerMm } from '../../core/plan/geometry.ts';
import '../style/stretchPicture.css';
import { Canvas } from './canvas.tsx';
import { cellsOf, shrunk } from './cells.ts';
import type { Box } from './useBox.ts';

export interface StretchPictureProps {
  readonly course: Course;
  /** Counted from 0. */
  readonly piece: number;
  readonly stretch: Stretch;
  /** What it shows, in words. */
  readonly label: string;
  /**
   * `whole`: as long as its place, from selvedge to selvedge. `near`: threads in their proportions,
   * and of the width as much as there is room for.
   */
  readonly look: 'whole' | 'near';
}

/** CSS pixels: a pick is never drawn larger, or two stripes would fill the screen. */
const LARGEST_PICK = 22;

export function StretchPicture({ course, piece, stretch, label, look }: StretchPictureProps) {
  const { from, to } = stretch;
  const cells = useMemo(() => cellsOf(course, piece, from, to), [course, piece, from, to]);
  const { pickSpacing } = course.plan.weaving;
  const aspect = 1 / endsPerMm(course.plan.loom) / pickSpacing;
  const paint = (ctx: CanvasRenderingContext2D, room: Box) => {
    ctx.clearRect(0, 0, room.width, room.height);
    if (cells.height === 0 || room.width < 1 || room.height < 1) return;
    paintLying(ctx, cells, room, look === 'near' ? aspect : null);
  };
  return <Canvas class="stretch-picture" label={label} paint={paint} />;
}

/** `aspect`: the distance from end to end over that from pick to pick; null to fill the place. */
function paintLying(
  ctx: CanvasRenderingContext2D,
  cells: HTMLCanvasElement,
  { width, height, dpr }: Box,
  aspect: number | null,
): void {
  const pick = width / cells.height;
  const long = aspect === null ? width : Math.min(width, LARGEST_PICK * cells.height);
  const wanted =
    aspect === null ? cells.width : height / (aspect * Math.min(pick, LARGEST_PICK) || 1);
  const ends = Math.max(1, Math.min(cells.width, wanted));
  // Of a warp too wide for the place its middle.
  const first = (cells.width - ends) / 2;
  const high = aspect === null ? height : Math.min(height, (height * ends) / wanted);
  ctx.save();
  ctx.translate((width - long) / 2, (height + high) / 2);
  ctx.rotate(-Math.PI / 2);
  const share = cells.width / ends;
  const small = shrunk(cells, high * dpr * share, long * dpr);
  const scale = small.width / cells.width;
  ctx.imageSmoothingEnabled = small.height > long || small.width > high * share;
  ctx.imageSmoothingQuality = 'high';
  ctx.drawImage(small, first * scale, 0, ends * scale, small.height, 0, 0, high, long);
  ctx.restore();
}
