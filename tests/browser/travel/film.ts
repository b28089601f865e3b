// A film of a QR code, for a browser that takes it for what its camera sees.
import { closeSync, openSync, writeSync } from 'node:fs';
import { encode } from 'uqr';

const WIDTH = 1280;
const HEIGHT = 720;
const FRAMES = 10;
/** How bright paper and ink are in it: a screen seen by a camera is never quite white or black. */
const PAPER = 215;
const INK = 45;

/** Writes a Y4M film in which a code of `text` fills most of the picture's height. */
export function filmOf(text: string, path: string): void {
  const luma = pictureOf(text);
  const grey = Buffer.alloc((WIDTH / 2) * (HEIGHT / 2), 128);
  const file = openSync(path, 'w');
  try {
    writeSync(file, `YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420jpeg\n`);
    for (let frame = 0; frame < FRAMES; frame++) {
      for (const part of [Buffer.from('FRAME\n'), luma, grey, grey]) writeSync(file, part);
    }
  } finally {
    closeSync(file);
  }
}

function pictureOf(text: string): Buffer {
  const { data, size } = encode(text, { ecc: 'L', border: 4 });
  const luma = Buffer.alloc(WIDTH * HEIGHT, 120);
  const module = (HEIGHT * 0.94) / size;
  const [left, top] = [(WIDTH - size * module) / 2, (HEIGHT - size * module) / 2];
  for (let y = 0; y < HEIGHT; y++) {
    const row = data[Math.floor((y - top) / module)];
    for (let x = 0; x < WIDTH; x++) {
      const dark = row?.[Math.floor((x - left) / module)];
      if (dark !== undefined) luma[y * WIDTH + x] = dark ? INK : PAPER;
    }
  }
  return luma;
}
