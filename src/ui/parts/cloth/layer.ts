/** A canvas laid into the picture at a place of its own, one pixel of it to a device pixel. */

/** In device pixels, from the left end of the fell. */
export interface Place {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export function layerIn(parent: HTMLElement, place: Place, dpr: number): HTMLCanvasElement {
  const canvas = parent.ownerDocument.createElement('canvas');
  putAt(canvas, place, dpr);
  parent.append(canvas);
  return canvas;
}

/** Clears it, too. */
export function putAt(
  canvas: HTMLCanvasElement,
  { left, top, width, height }: Place,
  dpr: number,
): void {
  canvas.width = Math.max(1, width);
  canvas.height = Math.max(1, height);
  const { style } = canvas;
  style.position = 'absolute';
  // not for a reader
  style.inset = `${top / dpr}px auto auto ${left / dpr}px`;
  style.width = `${width / dpr}px`;
  style.height = `${height / dpr}px`;
}
