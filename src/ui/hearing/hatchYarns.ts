/** Paints the hatching of each yarn, the same as on paper: the darker the yarn, the closer the lines. */
import { hatchLines, hatchStyles, luminance } from '../../core/paper/hatch.ts';
import type { HatchPainter } from '../parts/hatching.ts';

/** Paper is hatched in millimetres, the screen in CSS px. */
const PX_PER_MM = 3.6;

/** Lines in black or white, whichever is further from the yarn: half way between them in contrast. */
const MIDDLE_LIGHT = 0.179;

export function hatchYarns(colours: readonly string[]): HatchPainter {
  const styles = hatchStyles(colours);
  const inks = colours.map((colour) => (luminance(colour) > MIDDLE_LIGHT ? '#000000' : '#ffffff'));
  return (ctx, yarn, { x, y, width, height }) => {
    const rect = {
      x: x / PX_PER_MM,
      y: y / PX_PER_MM,
      width: width / PX_PER_MM,
      height: height / PX_PER_MM,
    };
    ctx.save();
    ctx.strokeStyle = inks[yarn] ?? '#000000';
    ctx.lineWidth = 1;
    ctx.globalAlpha = 0.55;
    ctx.beginPath();
    for (const { x1, y1, x2, y2 } of hatchLines(styles[yarn] ?? 0, rect)) {
      ctx.moveTo(x1 * PX_PER_MM, y1 * PX_PER_MM);
      ctx.lineTo(x2 * PX_PER_MM, y2 * PX_PER_MM);
    }
    ctx.stroke();
    ctx.restore();
  };
}
