/** A photo from a file, scaled down and turned the right way up, as a JPEG in text. */
import { PHOTO_SIDE } from '../../core/journal/photo.ts';
import { drawPhoto } from './photo.ts';

export interface ScaledPhoto {
  /** Pixels, the longer of them `PHOTO_SIDE` at most. */
  readonly width: number;
  readonly height: number;
  /** The JPEG as base64. */
  readonly data: string;
}

const QUALITY = 0.82;

/** Null when the file is no picture this browser can read. */
export async function scalePhoto(file: Blob): Promise<ScaledPhoto | null> {
  const canvas = document.createElement('canvas');
  if (!(await drawPhoto(file, canvas, PHOTO_SIDE))) return null;
  const { width, height } = canvas;
  layWhiteUnder(canvas);
  const [, data = ''] = canvas.toDataURL('image/jpeg', QUALITY).split(',');
  return data === '' ? null : { width, height, data };
}

/** What can be seen through would be black in a JPEG. */
function layWhiteUnder(canvas: HTMLCanvasElement): void {
  const ctx = canvas.getContext('2d');
  if (ctx === null) return;
  ctx.globalCompositeOperation = 'destination-over';
  ctx.fillStyle = '#ffffff';
  ctx.fillRect(0, 0, canvas.width, canvas.height);
}
