/** One frame of the viewer: the tiles that are there, and over them marks, names and rulers. */
import type { ClothPlan } from '../../../core/planner/clothPlan.ts';
import { drawTiles, drawUnderlay, hasTile, type Layer, type Shown, tilesShown } from './layers.ts';
import { drawMarks, drawNames } from './marks.ts';
import { drawRulers, type RulerStyle } from './ruler.ts';

export interface Look extends RulerStyle {
  readonly page: string;
}

export interface Frame {
  readonly layer: Layer;
  readonly look: Look;
  readonly shown: Shown;
  /** Device pixels in one CSS pixel. */
  readonly dpr: number;
  /** The whole page in little, asked for only where tiles are missing. */
  readonly underlay: () => HTMLCanvasElement;
}

/** A place on the picture, in device pixels. */
export interface Corner {
  readonly x: number;
  readonly y: number;
}

/** Draws as much of the frame as the canvas holds, whose own corner lies there on the picture. */
export function compose(ctx: CanvasRenderingContext2D, frame: Frame, { x, y }: Corner): void {
  const { layer, look, shown, dpr, underlay } = frame;
  ctx.setTransform(1, 0, 0, 1, -x, -y);
  ctx.fillStyle = look.page;
  ctx.fillRect(0, 0, shown.width, shown.height);
  const missing = tilesShown(layer, shown).filter((tile) => !hasTile(layer, tile));
  if (missing.length > 0) drawUnderlay(ctx, underlay(), layer, shown, missing);
  drawTiles(ctx, layer, shown);
  ctx.setTransform(dpr, 0, 0, dpr, -x, -y);
  drawOver(ctx, layer.subject.cloth, frame);
}

function drawOver(
  ctx: CanvasRenderingContext2D,
  cloth: ClothPlan,
  { look, shown, dpr }: Frame,
): void {
  const drawn = {
    x: shown.x / dpr,
    y: shown.y / dpr,
    scale: shown.scale / dpr,
    width: shown.width / dpr,
    height: shown.height / dpr,
  };
  drawMarks(ctx, cloth, drawn, { ink: look.ink, line: 1 });
  drawNames(ctx, cloth, drawn, look.ink);
  drawRulers(ctx, cloth, drawn, look);
}
