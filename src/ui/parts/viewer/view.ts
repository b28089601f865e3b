/** Which part of the page is looked at, and how large: the arithmetic of panning and zooming. */
import type { Mm } from '../../../core/measure/length.ts';

export interface View {
  /** The point of the page in the middle of the place. */
  readonly x: Mm;
  readonly y: Mm;
  /** CSS pixels per millimetre. */
  readonly scale: number;
}

/** The place the picture has, in CSS pixels; rulers lie left of it and below it. */
export interface Place {
  readonly left: number;
  readonly width: number;
  readonly height: number;
  /** Device pixels in one CSS pixel. */
  readonly dpr: number;
}

/** A page, and how large it may be shown at most. */
export interface Page {
  readonly width: Mm;
  readonly height: Mm;
  readonly mostScale: number;
}

/** Room left free round a page that is shown whole, as a share of the place. */
const MARGIN = 0.05;
/** How far the page's edge may be drawn into the place, as a share of it. */
const SLACK = 0.3;

/** The whole page. */
export function fitted(page: Page, place: Place): View {
  const room = 1 - 2 * MARGIN;
  const scale = Math.min((place.width * room) / page.width, (place.height * room) / page.height);
  return { x: page.width / 2, y: page.height / 2, scale: Math.min(scale, page.mostScale) };
}

/** Moved by CSS pixels: to the right and down are positive, as a finger draws the page along. */
export function moved(view: View, right: number, down: number): View {
  return { ...view, x: view.x - right / view.scale, y: view.y - down / view.scale };
}

/** Zoomed so that the point under a place on the screen, counted from its middle, stays there. */
export function zoomed(view: View, by: number, at = { x: 0, y: 0 }): View {
  const scale = view.scale * by;
  const keep = (middle: number, offset: number) => middle + offset / view.scale - offset / scale;
  return { x: keep(view.x, at.x), y: keep(view.y, at.y), scale };
}

/** The nearest view that keeps the page in sight, no smaller than whole and no larger than allowed. */
export function kept(view: View, page: Page, place: Place): View {
  const whole = fitted(page, place).scale;
  const scale = Math.min(page.mostScale, Math.max(whole, view.scale));
  return {
    x: keptAlong(view.x, page.width, place.width / scale),
    y: keptAlong(view.y, page.height, place.height / scale),
    scale,
  };
}

/** A page smaller than the place stays in its middle; a larger one ends a little inside it. */
function keptAlong(at: Mm, page: Mm, room: Mm): Mm {
  if (page <= room * (1 - 2 * MARGIN) * (1 + 1e-6)) return page / 2;
  const least = Math.min(page / 2, room * (0.5 - SLACK));
  return Math.min(page - least, Math.max(least, at));
}
