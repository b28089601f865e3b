/** The camera that looks away from the weaver, for as long as it is wanted. Nothing is recorded. */
import { fail, ok, type Result } from '../../core/measure/result.ts';

/**
 * `missing`: this browser, or a page without HTTPS, has no way to a camera. `refused`: the weaver or
 * the device said no. `none`: there is no camera. `busy`: another app has it.
 */
export type CameraTrouble = 'missing' | 'refused' | 'none' | 'busy' | 'unknown';

/** CSS px asked for; a dense code needs them, and a camera without gives what it has. */
const WANTED = {
  facingMode: { ideal: 'environment' },
  width: { ideal: 1920 },
  height: { ideal: 1080 },
};

const TROUBLES: Readonly<Record<string, CameraTrouble>> = {
  NotAllowedError: 'refused',
  SecurityError: 'refused',
  NotFoundError: 'none',
  OverconstrainedError: 'none',
  NotReadableError: 'busy',
  AbortError: 'busy',
};

/** Asks for the camera: the browser asks the weaver where it has not yet. */
export async function openCamera(): Promise<Result<MediaStream, CameraTrouble>> {
  if (navigator.mediaDevices?.getUserMedia === undefined) return fail('missing');
  try {
    return ok(await navigator.mediaDevices.getUserMedia({ video: WANTED, audio: false }));
  } catch (error) {
    return fail(TROUBLES[error instanceof DOMException ? error.name : ''] ?? 'unknown');
  }
}

/** The light beside the camera goes out. */
export function closeCamera(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

/** The middle square of what the camera sees now, at most `most` px a side; null before it sees anything. */
export function frameOf(
  video: HTMLVideoElement,
  canvas: HTMLCanvasElement,
  most: number,
): ImageData | null {
  const { videoWidth: width, videoHeight: height } = video;
  const side = Math.min(width, height);
  const ctx = canvas.getContext('2d', { willReadFrequently: true });
  if (side === 0 || ctx === null) return null;
  const shown = Math.min(side, most);
  canvas.width = shown;
  canvas.height = shown;
  ctx.drawImage(video, (width - side) / 2, (height - side) / 2, side, side, 0, 0, shown, shown);
  return ctx.getImageData(0, 0, shown, shown);
}
