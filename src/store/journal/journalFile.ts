/**
 * The journal on its two files, of which one holds it and the other is free. It grows at its end;
 * when too much of it has been written over, it is written anew into the free file. The files stay,
 * because making and deleting files would write to a database of the browser's own, which a kill
 * can damage.
 */
import { type Entry, isSamePlace, type Ledger, type Place } from '../op.ts';
import { compacted } from './compacted.ts';
import { encodeLine } from './line.ts';
import {
  agree,
  FORMAT,
  type Head,
  lastPlace,
  placeOf,
  readHead,
  readPages,
  writePages,
} from './pages.ts';
import { type SyncFile, writeAtEnd } from './syncFile.ts';

/** What the journal has that a database has not. */
export type Comparison =
  | { readonly kind: 'same' }
  /** There is no journal. */
  | { readonly kind: 'none' }
  /** A newer app wrote it; nothing was touched. */
  | { readonly kind: 'newer' }
  | {
      readonly kind: 'differs';
      /** Null when the line that says it is damaged. */
      readonly store: string | null;
      readonly last: Place;
      /** Whether nothing is damaged or lost in it, and all the database has is in it. */
      readonly isWhole: boolean;
      /** Whether it is undamaged and begins with all there was after the database's last write. */
      readonly tellsAll: boolean;
      /** In the order they were made, without what was written over or taken away later. */
      readonly missing: readonly Entry[];
    };

export interface JournalFile {
  readonly compare: (ledger: Ledger | null) => Comparison;
  /** Throws when the entry did not reach the disk; the journal is then as before. */
  readonly append: (entry: Entry) => void;
  /** Writes it anew: `entries` tell the state of the store at this place. */
  readonly rewrite: (store: string, place: Place, entries: readonly Entry[]) => void;
  /** Whether so much in it is written over that `compact` is worth its while. */
  readonly isLarge: () => boolean;
  readonly compact: () => void;
  /** Reads all of it; false when anything is damaged or missing that a database at this place has. */
  readonly isSound: (ledger: Ledger | null) => boolean;
}

const SPARE_BYTES = 1_000_000;

type Files = readonly [SyncFile, SyncFile];

/** The file that counts; without a head all that can still be read in it counts. */
export interface Current {
  readonly file: SyncFile;
  readonly head: Head | null;
}

/** `data` is the version of the data this app writes, and the newest it can read. */
export function createJournalFile(files: Files, data: number): JournalFile {
  let current = currentOf(files);
  const begun = (): Current => {
    if (current === null) throw new Error('got no journal, wanted one begun');
    return current;
  };
  const rewrite = (store: string, { n, by }: Place, entries: readonly Entry[]): void => {
    const [one, other] = files;
    const [to, from] = current?.file === one ? [other, one] : [one, other];
    const generation = (current?.head?.generation ?? 0) + 1;
    const head = { journal: FORMAT, data, store, generation, n, by };
    const isReadable = current?.head !== null;
    current = { file: to, head: writePages(to, head, entries) };
    // What could not be read any more is kept until there is need of the file.
    if (isReadable) from.truncate(0);
    from.flush();
  };
  const compact = (): void => {
    const { file, head } = begun();
    const { entries, isWhole } = readPages(file, head);
    // What is damaged is written anew from the database instead.
    if (isWhole && head !== null)
      rewrite(head.store, placeOf(head, entries.at(-1)), compacted(entries));
  };
  return {
    compare: (ledger) => (current === null ? { kind: 'none' } : compare(current, ledger, data)),
    append: (entry) => writeAtEnd(begun().file, encodeLine(entry)),
    rewrite,
    isLarge: () => begun().file.getSize() > 2 * (begun().head?.bytes ?? 0) + SPARE_BYTES,
    compact,
    isSound: (ledger) => isSound(begun().file, ledger),
  };
}

function isSound(file: SyncFile, ledger: Ledger | null): boolean {
  // The first line too, which was read long ago.
  const head = readHead(file);
  const { entries, isWhole } = readPages(file, head);
  return isWhole && (ledger === null || isSamePlace(placeOf(head, entries.at(-1)), ledger));
}

/** Null where nothing was ever written. */
export function currentOf(files: readonly SyncFile[]): Current | null {
  const filled = files
    .filter((file) => file.getSize() > 0)
    .map((file): Current => ({ file, head: readHead(file) }))
    .toSorted((a, b) => (b.head?.generation ?? 0) - (a.head?.generation ?? 0));
  return filled[0] ?? null;
}

function compare({ file, head }: Current, ledger: Ledger | null, data: number): Comparison {
  if (head !== null) {
    if (head.journal > FORMAT || head.data > data) return { kind: 'newer' };
    if (agree(head, lastPlace(file, head), ledger)) return { kind: 'same' };
  }
  const { entries, isWhole } = readPages(file, head);
  const isSameStore = head === null || ledger === null || head.store === ledger.store;
  const isLater = head !== null && ledger !== null && ledger.n < head.n;
  return {
    kind: 'differs',
    store: head?.store ?? null,
    last: placeOf(head, entries.at(-1)),
    isWhole: isWhole && isSameStore && holds([...entries, head], ledger),
    tellsAll: isWhole && isSameStore && isLater,
    missing: compacted(isSameStore ? entries.filter((it) => !isIn(ledger, it)) : entries),
  };
}

/** Whether the history came past the place where the database stands. */
function holds(places: readonly (Place | null)[], ledger: Ledger | null): boolean {
  return ledger === null || places.some((place) => isSamePlace(place, ledger));
}

/** A window that wrote to the database last has written to it everything it wrote down here before. */
function isIn(ledger: Ledger | null, { n, by }: Place): boolean {
  return ledger !== null && (n <= ledger.flushed || (by === ledger.by && n <= ledger.n));
}
