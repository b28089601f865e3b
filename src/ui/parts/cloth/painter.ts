/** All that paints the cloth: fetched beside the bench, which tells where the weaver is before it. */
import { showBehind, showLoops } from './behind.ts';
import { BEAT_MS } from './laid.ts';
import { readyNext, showCloth } from './layers.ts';

export const painter = { showCloth, showBehind, showLoops, readyNext, beatMs: BEAT_MS };
export type Painter = typeof painter;
