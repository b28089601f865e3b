/** Where cut pieces lie on a page: side by side as on a table, in rows that suit the place. */
import type { Mm } from '../measure/length.ts';

export interface PlacedPart {
  /** The left selvedge and the upper end, on the page. */
  readonly left: Mm;
  readonly top: Mm;
  /** From end to end, fringes included. */
  readonly length: Mm;
}

export interface ClothPage {
  readonly width: Mm;
  readonly height: Mm;
  readonly places: readonly PlacedPart[];
}

/** Room between two pieces, as a share of their width. */
const BETWEEN = 1 / 9;

/**
 * Places parts of one width in as many columns as make them largest where width over height is
 * `aspect`; first row uppermost, and in a row all begin at the same height, as their first picks do.
 */
export function placeParts(lengths: readonly Mm[], width: Mm, aspect: number): ClothPage {
  let best: ClothPage | null = null;
  for (let columns = 1; columns <= lengths.length; columns++) {
    const page = inColumns(lengths, width, columns);
    if (best === null || sizeIn(page, aspect) > sizeIn(best, aspect)) best = page;
  }
  if (best === null) throw new Error('got no parts, wanted at least one');
  return best;
}

function inColumns(lengths: readonly Mm[], width: Mm, columns: number): ClothPage {
  const gap = width * BETWEEN;
  const places: PlacedPart[] = [];
  let bottom = -gap;
  for (let first = 0; first < lengths.length; first += columns) {
    const row = lengths.slice(first, first + columns);
    bottom += gap + Math.max(...row);
    for (const [i, length] of row.entries()) {
      places.push({ left: i * (width + gap), top: bottom - length, length });
    }
  }
  return { width: columns * (width + gap) - gap, height: bottom, places };
}

/** How large the page can be shown in a place of height 1. */
function sizeIn({ width, height }: ClothPage, aspect: number): number {
  return Math.min(aspect / width, 1 / height);
}
