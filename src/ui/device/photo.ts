/** A photo from a file, as pixels to look at. Nothing leaves the device. */

/** CSS px of the longer side: enough to aim at a thread, small enough for an old tablet. */
const LONGEST_SIDE = 1024;

/**
 * Draws the photo the right way up into a canvas of its own proportions, `longest` px at most. False
 * when the file is no picture this browser can read.
 */
export async function drawPhoto(
  file: Blob,
  canvas: HTMLCanvasElement,
  longest = LONGEST_SIDE,
): Promise<boolean> {
  const picture = await decoded(file);
  if (picture === null) return false;
  const scale = Math.min(1, longest / Math.max(picture.width, picture.height));
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const ctx = canvas.getContext('2d', { willReadFrequently: true });
  ctx?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return ctx !== null;
}

async function decoded(file: Blob): Promise<ImageBitmap | null> {
  try {
    // Turned as the camera was held: browsers do so by default, older ones only when told.
    return await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return null;
  }
}

/** A place in a photo as shares of its width and height, 0 to 1. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** The side of the patch that is looked at, as a share of the photo's shorter side. */
const PATCH = 0.05;

/** The pixels of the patch around a spot (red, green, blue, opacity), within the photo. */
export function patchAt(canvas: HTMLCanvasElement, { x, y }: Spot): ArrayLike<number> {
  const side = Math.max(3, Math.round(PATCH * Math.min(canvas.width, canvas.height)));
  const left = clamp(Math.round(x * canvas.width - side / 2), canvas.width - side);
  const top = clamp(Math.round(y * canvas.height - side / 2), canvas.height - side);
  const ctx = canvas.getContext('2d', { willReadFrequently: true });
  return ctx === null ? [] : ctx.getImageData(left, top, side, side).data;
}

function clamp(value: number, most: number): number {
  return Math.max(0, Math.min(value, most));
}
