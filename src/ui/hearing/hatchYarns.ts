/** Paints the hatching of each yarn, the same as on paper: the darker the yarn, the closer the lines. */
import { hatchLines, hatchStyles, luminance, type Rect } from '../../core/paper/hatch.ts';
import type { HatchBox, HatchPainter } from '../parts/hatching.ts';

/** Paper is hatched in millimetres, the screen in CSS px. */
const PX_PER_MM = 3.6;

/** All of them, in millimetres. */
function around(boxes: readonly HatchBox[]): Rect {
  const x = Math.min(...boxes.map((it) => it.x)) / PX_PER_MM;
  const y = Math.min(...boxes.map((it) => it.y)) / PX_PER_MM;
  const right = Math.max(...boxes.map((it) => it.x + it.width)) / PX_PER_MM;
  const foot = Math.max(...boxes.map((it) => it.y + it.height)) / PX_PER_MM;
  return { x, y, width: right - x, height: foot - y };
}

/** Lines in black or white, whichever is further from the yarn: half way between them in contrast. */
const MIDDLE_LIGHT = 0.179;

export function hatchYarns(colours: readonly string[]): HatchPainter {
  const styles = hatchStyles(colours);
  const inks = colours.map((colour) => (luminance(colour) > MIDDLE_LIGHT ? '#000000' : '#ffffff'));
  return (ctx, yarn, boxes) => {
    if (boxes.length === 0) return;
    ctx.save();
    ctx.beginPath();
    for (const { x, y, width, height } of boxes) ctx.rect(x, y, width, height);
    ctx.clip();
    ctx.strokeStyle = inks[yarn] ?? '#000000';
    ctx.lineWidth = 1;
    ctx.globalAlpha = 0.55;
    ctx.beginPath();
    for (const { x1, y1, x2, y2 } of hatchLines(styles[yarn] ?? 0, around(boxes))) {
      ctx.moveTo(x1 * PX_PER_MM, y1 * PX_PER_MM);
      ctx.lineTo(x2 * PX_PER_MM, y2 * PX_PER_MM);
    }
    ctx.stroke();
    ctx.restore();
  };
}
