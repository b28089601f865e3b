/** The colours of the page, for canvases: they know no variables of CSS. */
import { pixelOf } from '../../../core/plan/clothPicture.ts';
import { styleColour } from '../styleColour.ts';
import type { Look } from './compose.ts';

export interface PageColours extends Look {
  /** The table the cloth lies on, as a pixel. */
  readonly groundPixel: number;
}

export function pageColours(): PageColours {
  const page = styleColour('--table');
  return {
    page,
    ground: styleColour('--panel'),
    ink: styleColour('--ink'),
    line: styleColour('--line'),
    groundPixel: pixelOf(page),
  };
}
