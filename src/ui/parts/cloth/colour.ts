/** Small changes to a colour kept as one opaque pixel 0xAABBGGRR. */

const OPAQUE = 0xff000000;

/** A share lighter (0.1) or darker (−0.1). */
export function toned(pixel: number, share: number): number {
  return changed(pixel, (part) => part * (1 + share));
}

/** That share of the way to white. */
export function paled(pixel: number, share: number): number {
  return changed(pixel, (part) => part + (255 - part) * share);
}

/** As a colour of CSS. */
export function styleOf(pixel: number, alpha = 1): string {
  return `rgb(${pixel & 0xff} ${(pixel >>> 8) & 0xff} ${(pixel >>> 16) & 0xff} / ${alpha})`;
}

/** Whether dark writing reads better on it than light (weights of Rec. 601). */
export function isLight(pixel: number): boolean {
  const red = pixel & 0xff;
  const green = (pixel >>> 8) & 0xff;
  const blue = (pixel >>> 16) & 0xff;
  return 0.299 * red + 0.587 * green + 0.114 * blue > 128;
}

/** A number from −1 to 1 that looks like chance and is always the same for the same two numbers. */
export function unevenness(a: number, b: number): number {
  let mixed = Math.imul(a + 0x9e37, 0x85ebca6b) ^ Math.imul(b + 0x79b9, 0xc2b2ae35);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x2c1b3c6d);
  mixed = Math.imul(mixed ^ (mixed >>> 12), 0x297a2d39);
  return ((mixed ^ (mixed >>> 15)) >>> 0) / 0x7fffffff - 1;
}

function changed(pixel: number, change: (part: number) => number): number {
  const part = (shift: number) =>
    Math.min(255, Math.max(0, Math.round(change((pixel >>> shift) & 0xff)))) << shift;
  return (part(0) | part(8) | part(16) | OPAQUE) >>> 0;
}
