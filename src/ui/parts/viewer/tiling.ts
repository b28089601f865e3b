/** Which tiles are painted in a frame, and when others take their place. */
import {
  hasTile,
  type Layer,
  newLayer,
  paintTile,
  type Shown,
  type Subject,
  tilePixels,
  tilesShown,
  UNDERLAY_PIXELS,
} from './layers.ts';

/** Milliseconds of a frame for painting new tiles: the rest is for drawing them. */
const BUDGET = 6;

/** While the size changes the tiles there are stretched, unless they grow too coarse or too fine. */
export function layerFor(
  layer: Layer | null,
  subject: Subject,
  shown: Shown,
  isMoving: boolean,
): Layer {
  if (layer === null) return newLayer(subject, shown.scale);
  const by = shown.scale / layer.scale;
  if (Math.abs(by - 1) < 1e-9) return layer;
  return isMoving && by > 0.5 && by < 2.5 ? layer : newLayer(subject, shown.scale);
}

/** As `addTiles`; but all that are shown, whatever the time, where the small page in their stead takes as long. */
export function addFirstTiles(layer: Layer, shown: Shown): boolean {
  const tiles = tilesShown(layer, shown);
  if (tilePixels(layer, tiles) > UNDERLAY_PIXELS) return addTiles(layer, shown, false);
  for (const tile of tiles) paintTile(layer, tile, tiles.length);
  return tilesShown(layer, shown, 1).length > tiles.length;
}

/** Paints missing tiles while there is time; true where some are still missing. */
export function addTiles(layer: Layer, shown: Shown, isMoving: boolean): boolean {
  // Stretched tiles will be of no use once the size has settled.
  if (isMoving && Math.abs(shown.scale / layer.scale - 1) > 1e-9) return true;
  const wanted = tilesShown(layer, shown, 1);
  const missing = wanted.filter((tile) => !hasTile(layer, tile));
  const until = performance.now() + BUDGET;
  for (const [i, tile] of missing.entries()) {
    if (i > 0 && performance.now() >= until) return true;
    paintTile(layer, tile, wanted.length);
  }
  return false;
}
