/**
 * How the threads of a cell take the light: which of the two is seen at a point, and how bright.
 * The surfaces are simple: a thread is round across, pressed a little flat, and waves along.
 */

/** A cell's kind: whether the end is up, and whether the float goes on at its two ends. */
export const UP = 4;
export const GOES_ON_BEFORE = 2;
export const GOES_ON_AFTER = 1;
export const KINDS = 8;

export interface CellShape {
  readonly kind: number;
  readonly endPx: number;
  readonly pickPx: number;
  /** How deep the grooves between the plies are, and how far round they have turned. */
  readonly twist: number;
  readonly turn: number;
}

/** Shares of the thread on top, of the one beneath, and of white, in 256 parts of a pixel. */
export interface Light {
  top: number;
  under: number;
  white: number;
}

/** Points looked at in a pixel, each way. */
const SAMPLES = 4;

/** The mean over a pixel whose corner lies at (x, y) in the cell; what lies outside counts nothing. */
export function pixelLight(shape: CellShape, x: number, y: number): Light {
  const sum: Light = { top: 0, under: 0, white: 0 };
  const share = 256 / SAMPLES ** 2;
  for (let sample = 0; sample < SAMPLES ** 2; sample++) {
    const across = (x + ((sample % SAMPLES) + 0.5) / SAMPLES) / shape.endPx;
    const down = (y + (Math.floor(sample / SAMPLES) + 0.5) / SAMPLES) / shape.pickPx;
    if (across < 0 || across >= 1) continue;
    const light = lightAt(shape, 2 * across - 1, 2 * down - 1);
    sum.top += share * light.top;
    sum.under += share * light.under;
    sum.white += share * light.white;
  }
  return sum;
}

/** Half the width and half the height of a thread pressed flat, and how far it waves; cell = 2. */
const HALF_WIDTH = 0.88;
const HALF_HEIGHT = 0.56;
const WAVE = 0.24;
/** Where neither thread is, the depth shows a little of the one beneath. */
const GAP: Light = { top: 0, under: 0.34, white: 0 };

/** x and y run from −1 to 1 over the cell; the thread that lies higher there is the one seen. */
function lightAt(shape: CellShape, x: number, y: number): Light {
  const isUp = (shape.kind & UP) !== 0;
  const [across, along] = isUp ? [x, y] : [y, x];
  const goesOn = (shape.kind & (along < 0 ? GOES_ON_BEFORE : GOES_ON_AFTER)) !== 0;
  const top = heightOf(across, goesOn ? 0 : along, 1);
  const under = heightOf(along, across, -1);
  if (top === undefined && under === undefined) return GAP;
  if (top === undefined || (under !== undefined && under.z > top.z)) {
    return { ...GAP, under: brightness(under ?? NOTHING, !isUp) };
  }
  const twist = shape.twist * Math.cos(2 * Math.PI * (0.9 * along + 0.5 * across + shape.turn));
  const bright = brightness(top, isUp) * (1 + twist);
  const white = 0.3 * Math.max(0, bright - 0.8);
  return { top: Math.min(bright, 1 - white), under: 0, white };
}

interface Surface {
  readonly z: number;
  readonly across: number;
  readonly along: number;
}
const NOTHING: Surface = { z: 0, across: 0, along: 0 };

/** The surface of a thread that waves up (1) or down (−1) in this cell: height and slopes. */
function heightOf(across: number, along: number, way: 1 | -1): Surface | undefined {
  const out = across / HALF_WIDTH;
  if (Math.abs(out) >= 1) return undefined;
  const round = Math.sqrt(1 - out ** 2);
  const wave = (Math.PI / 2) * along;
  return {
    z: way * WAVE * Math.cos(wave) + HALF_HEIGHT * round,
    across: (HALF_HEIGHT * out) / (HALF_WIDTH * Math.max(round, 0.25)),
    along: way * WAVE * (Math.PI / 2) * Math.sin(wave),
  };
}

/** Soft light from the upper left on matt cotton; what lies deep gets less of it. */
function brightness({ z, across, along }: Surface, isWarp: boolean): number {
  const [right, down] = isWarp ? [across, along] : [along, across];
  const facing = (1 - 0.26 * right - 0.42 * down) / (1.11 * Math.hypot(right, down, 1));
  const open = Math.min(1, Math.max(0, (z + 0.35) / (WAVE + HALF_HEIGHT + 0.35)));
  return (0.46 + 0.6 * Math.max(0, facing)) * (0.62 + 0.38 * open);
}
