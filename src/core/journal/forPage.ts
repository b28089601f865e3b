/** Which lines of a story a page of paper has room for. */

export interface PageLine {
  readonly text: string;
  /** Notes come before all else. */
  readonly isNote: boolean;
}

/** Characters that surely fit into one line of the page, and lines that one entry may take. */
export const LINE_LENGTH = 70;
export const MOST_LINES = 3;

/** Lines an entry takes: at most `MOST_LINES`, the rest of it is cut. */
export function linesOf({ text }: PageLine): number {
  const lines = text.split('\n').reduce((sum, it) => sum + Math.ceil(it.length / LINE_LENGTH), 0);
  return Math.max(1, Math.min(MOST_LINES, lines));
}

/**
 * The places of the entries that fit into so many lines, in their order: notes first, the latest of
 * each before earlier ones. What is left out is told in a line of its own, for which room is kept.
 */
export function forPage(entries: readonly PageLine[], lines: number): readonly number[] {
  const latestFirst = entries.map((entry, place) => ({ entry, place })).toReversed();
  const notesFirst = [
    ...latestFirst.filter(({ entry }) => entry.isNote),
    ...latestFirst.filter(({ entry }) => !entry.isNote),
  ];
  const all = entries.reduce((sum, it) => sum + linesOf(it), 0);
  let room = all <= lines ? lines : lines - 1;
  const kept: number[] = [];
  for (const { entry, place } of notesFirst) {
    if (linesOf(entry) > room) continue;
    room -= linesOf(entry);
    kept.push(place);
  }
  return kept.sort((a, b) => a - b);
}
