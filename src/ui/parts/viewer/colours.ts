/** The colours of the page, for canvases: they know no variables of CSS. */
import { pixelOf } from '../../../core/plan/clothPicture.ts';
import type { Look } from './stage.ts';

export interface PageColours extends Look {
  /** The table the cloth lies on, as a pixel. */
  readonly groundPixel: number;
}

export function pageColours(): PageColours {
  const style = getComputedStyle(document.documentElement);
  const value = (name: string) => style.getPropertyValue(name).trim();
  const page = value('--table');
  return {
    page,
    ground: value('--panel'),
    ink: value('--ink'),
    line: value('--line'),
    groundPixel: pixelOf(page),
  };
}
