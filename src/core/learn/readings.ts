/** What was read of the real cloth, gathered from the log: what was undone or struck is left out. */
import type { ClothReadState, Happening, LogEvent } from '../bench/events.ts';
import { countedEvents } from '../bench/undo.ts';
import type { Mm } from '../measure/length.ts';
import type { Grams } from '../measure/mass.ts';

/** One figure and the reading it came with, by which it can be struck. */
export interface Read<T> {
  readonly reading: string;
  readonly value: T;
}

/** What was read of one piece in one state. */
export interface StateReadings {
  readonly lengths: readonly Read<Mm>[];
  readonly widths: readonly Read<Mm>[];
  readonly fringes: readonly Read<Mm>[];
  /** Of several weighings the last holds. */
  readonly mass: Read<Grams> | null;
}

/** One end drawn out: its length in the cloth, and pulled straight. */
export interface Ravelled {
  readonly straightened: Mm;
  readonly inCloth: Mm;
}

export interface PieceReadings {
  readonly states: { readonly [state in ClothReadState]: StateReadings };
  readonly ravelled: readonly Read<Ravelled>[];
  /** Whether the next plans learn from this piece. */
  readonly counts: 'in' | 'out';
}

/** The warp's own figures; of several readings of one the last holds. */
export interface WarpReadings {
  readonly tiedOn: Read<Mm> | null;
  readonly frontWaste: Read<Mm> | null;
  readonly backWaste: Read<Mm> | null;
  readonly gaps: Read<readonly Mm[]> | null;
}

export interface ClothReadings {
  /** One a piece of the plan, in its order. */
  readonly pieces: readonly PieceReadings[];
  readonly warp: WarpReadings;
}

const NOTHING: StateReadings = { lengths: [], widths: [], fringes: [], mass: null };

const UNREAD: PieceReadings = {
  states: { loom: NOTHING, off: NOTHING, washed: NOTHING },
  ravelled: [],
  counts: 'in',
};

/** Everything read of a warp of so many pieces. Total: what makes no sense is not taken. */
export function readingsOf(log: readonly LogEvent[], pieces: number): ClothReadings {
  const events = countedEvents(log);
  const struck = new Set(events.flatMap((it) => (it.kind === 'readingStruck' ? it.reading : [])));
  const start: ClothReadings = {
    pieces: Array.from({ length: pieces }, () => UNREAD),
    warp: { tiedOn: null, frontWaste: null, backWaste: null, gaps: null },
  };
  return events
    .filter((it) => !('reading' in it) || !struck.has(it.reading))
    .reduce<ClothReadings>(readingOf, start);
}

function readingOf(readings: ClothReadings, event: Happening): ClothReadings {
  switch (event.kind) {
    case 'clothRead':
      return ofPiece(readings, event.piece, (it) => withCloth(it, event));
    case 'endRavelled':
      return ofPiece(readings, event.piece, (it) => withEnd(it, event));
    case 'learntFrom':
      return ofPiece(readings, event.piece, (it) => ({ ...it, counts: event.counts }));
    case 'warpRead':
      return { ...readings, warp: withWarp(readings.warp, event) };
    default:
      return readings;
  }
}

function ofPiece(
  readings: ClothReadings,
  piece: number,
  change: (it: PieceReadings) => PieceReadings,
): ClothReadings {
  return { ...readings, pieces: readings.pieces.map((it, i) => (i === piece ? change(it) : it)) };
}

type ClothRead = Extract<Happening, { kind: 'clothRead' }>;

function withCloth(piece: PieceReadings, event: ClothRead): PieceReadings {
  const before = piece.states[event.state] ?? NOTHING;
  const { reading } = event;
  const all = (values: readonly number[] | undefined) =>
    (values ?? []).filter(isSize).map((value) => ({ reading, value }));
  const state: StateReadings = {
    lengths: [...before.lengths, ...all(event.lengths)],
    widths: [...before.widths, ...all(event.widths)],
    fringes: [...before.fringes, ...all(event.fringe === undefined ? [] : [event.fringe])],
    mass: isSize(event.mass) ? { reading, value: event.mass } : before.mass,
  };
  return { ...piece, states: { ...piece.states, [event.state]: state } };
}

function withEnd(
  piece: PieceReadings,
  { reading, straightened, inCloth }: Extract<Happening, { kind: 'endRavelled' }>,
): PieceReadings {
  if (!isSize(straightened) || !isSize(inCloth)) return piece;
  return {
    ...piece,
    ravelled: [...piece.ravelled, { reading, value: { straightened, inCloth } }],
  };
}

function withWarp(
  before: WarpReadings,
  event: Extract<Happening, { kind: 'warpRead' }>,
): WarpReadings {
  const { reading, gaps } = event;
  const one = (value: Mm | undefined, old: Read<Mm> | null) =>
    isLength(value) ? { reading, value } : old;
  return {
    tiedOn: isSize(event.tiedOn) ? { reading, value: event.tiedOn } : before.tiedOn,
    frontWaste: one(event.frontWaste, before.frontWaste),
    backWaste: one(event.backWaste, before.backWaste),
    gaps: gaps?.every(isLength) === true ? { reading, value: gaps } : before.gaps,
  };
}

function isLength(value: number | undefined): value is number {
  return value !== undefined && Number.isFinite(value) && value >= 0;
}

function isSize(value: number | undefined): value is number {
  return isLength(value) && value > 0;
}
