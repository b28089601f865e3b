/** How large words must be to be read from a distance. */

/** Distances of the screen from the eye that can be set, in centimetres: from the lap to across the loom. */
export const DISTANCES = [60, 70, 90, 120, 150] as const;

/** Height of a capital letter in minutes of arc, by what is read. */
export const MINUTES = { body: 20, call: 30, count: 45 } as const;

/** Height of a capital letter as a share of the font size: that of the usual screen fonts (Roboto: 1456 of 2048). */
const CAP_HEIGHT = 0.711;
const MM_PER_INCH = 25.4;

export interface Screen {
  readonly pixelsPerInch: number;
  readonly pixelsPerCss: number;
}

/** A tablet with 264 pixels an inch, two of them a CSS pixel. */
export const TABLET: Screen = { pixelsPerInch: 264, pixelsPerCss: 2 };

/**
 * Font size in CSS pixels whose capitals are so many minutes of arc tall at a distance (mm), not
 * rounded: the height is `2 d tan(a / 2)`. At 0.7 m: 20′ → 29.8, 30′ → 44.6, 45′ → 66.9.
 */
export function fontSizeFor(minutes: number, distance: number, screen = TABLET): number {
  const angle = (minutes / 60 / 180) * Math.PI;
  const height = 2 * distance * Math.tan(angle / 2);
  return (height / CAP_HEIGHT / MM_PER_INCH) * (screen.pixelsPerInch / screen.pixelsPerCss);
}
