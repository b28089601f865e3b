/** The log of a warp as a table: a line for each thing that happened, in words. */
import { type Cell, csvText } from '../../../core/backup/csv.ts';
import { picksAlong } from '../../../core/bench/alongLog.ts';
import type { Happening, HappeningKind, LogEvent } from '../../../core/bench/events.ts';
import { pieceAt } from '../../../core/bench/pickAt.ts';
import { type Progress, progressOf } from '../../../core/bench/progress.ts';
import { cancelledBy } from '../../../core/bench/undo.ts';
import { formatMass } from '../../../core/measure/mass.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { count, length } from '../../format.ts';
import { type Readings, readWords } from '../journal/words.ts';
import { dueTitle } from '../weave/words.ts';

const HEAD = ['Line', 'Date', 'Time', 'What happened', 'Picks', 'Picks woven', 'Piece', 'Undone'];

/** Lines in the order of the log; times are this device's own. `Picks woven` is what lay in the cloth after it. */
export function logTable(plan: Plan, log: readonly LogEvent[]): string {
  const book: Book = {
    plan,
    progress: progressOf(plan, log),
    lines: new Map(log.map(({ id }, n) => [id, n + 1])),
  };
  const picks = picksAlong(plan, log);
  const undone = cancelledBy(log);
  const rows = log.map((event, n): readonly Cell[] => {
    const woven = picks[n] ?? 0;
    return [
      n + 1,
      ...dayAndTime(event.at),
      happenedWords(book, event),
      picksIn(event),
      woven,
      pieceWords(book, woven),
      undone.has(event.id) ? 'undone' : '',
    ];
  });
  return csvText([HEAD, ...rows]);
}

interface Book {
  readonly plan: Plan;
  readonly progress: Progress;
  /** Where each event stands in the table. */
  readonly lines: ReadonlyMap<string, number>;
}

/** As spreadsheets everywhere read them: 2026-11-27 and 14:30:05. */
function dayAndTime(at: string): readonly [string, string] {
  const time = new Date(at);
  if (Number.isNaN(time.getTime())) return [at, ''];
  const two = (n: number) => String(n).padStart(2, '0');
  return [
    `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`,
    `${two(time.getHours())}:${two(time.getMinutes())}:${two(time.getSeconds())}`,
  ];
}

function picksIn(event: Happening): Cell {
  return event.kind === 'thrown' || event.kind === 'thrownOf' || event.kind === 'takenOut'
    ? event.picks
    : '';
}

function pieceWords({ progress }: Book, woven: number): string {
  const { course } = progress;
  const piece = pieceAt(course, Math.max(0, Math.min(woven, course.picks) - 1));
  return course.plan.pieces[piece.index]?.name ?? '';
}

type Words = {
  readonly [K in HappeningKind]: (event: Extract<Happening, { kind: K }>, book: Book) => string;
};

function happenedWords(book: Book, event: Happening): string {
  if (!Object.hasOwn(WORDS, event.kind)) return 'Something this version does not know';
  const words = WORDS[event.kind] as (event: Happening, book: Book) => string;
  return words(event, book);
}

const nameOfPiece = ({ plan, progress }: Book, piece: number) =>
  (progress.course.plan.pieces[piece] ?? plan.pieces[piece])?.name ?? `piece ${piece + 1}`;
const nameOfBlock = (book: Book, { piece, block }: { piece: number; block: number }) =>
  `block ${block + 1} of ${nameOfPiece(book, piece)}`;
const nameOfYarn = ({ plan }: Book, letter: string) => {
  const yarn = plan.yarns.find((it) => it.letter === letter);
  return yarn === undefined ? letter : `${letter} ${yarn.name}`;
};
const nameOfDue = ({ progress }: Book, id: string) => {
  const due = progress.dues.find((it) => it.id === id);
  return due === undefined ? 'what was due' : dueTitle(progress.course.plan, due).toLowerCase();
};
const lineOf = ({ lines }: Book, id: string) => `line ${lines.get(id) ?? '?'}`;
const far = ({ plan }: Book, mm: number) => length(mm, plan.units);
const read = ({ plan }: Book, what: Readings) => readWords(what, plan.units);
/** Of a piece, or of the whole warp. */
const about = (book: Book, piece: number | undefined) =>
  piece === undefined ? '' : ` (${nameOfPiece(book, piece)})`;
const weight = ({ plan }: Book, grams: number) => formatMass(grams, plan.units);

const WORDS: Words = {
  thrown: ({ picks }) => (picks === 1 ? 'Thrown' : `Thrown: ${picks} picks`),
  takenOut: ({ picks }) => `Taken out: ${count(picks, 'pick')}`,
  woveLength: ({ loomLength }, book) => `Woven: ${far(book, loomLength)}`,
  thrownOf: ({ yarn, picks }, book) =>
    `Thrown: ${count(picks, 'pick')} of ${nameOfYarn(book, yarn)}`,
  woveLengthOf: ({ yarn, loomLength }, book) =>
    `Woven: ${far(book, loomLength)} of ${nameOfYarn(book, yarn)}`,
  freeEnded: () => 'Done weaving by eye',
  undone: ({ event }, book) => `Undid ${lineOf(book, event)}`,
  redone: ({ event }, book) => `Did ${lineOf(book, event)} again`,
  otherShed: () => 'Took the other shed',
  placed: ({ pick, shed }) => `Found the place: ${count(pick, 'pick')} woven; shed ${shed} next`,
  dueDone: ({ due }, book) => `Done: ${nameOfDue(book, due)}`,
  dueDeferred: ({ due }, book) => `Put off: ${nameOfDue(book, due)}`,
  advanced: () => 'Advanced the warp',
  blockSet: ({ piece, block, picks }, book) =>
    `Set ${nameOfBlock(book, { piece, block })} to ${count(picks, 'pick')}`,
  warped: ({ steps }) =>
    steps < 0
      ? `Warping: ${count(-steps, 'step')} taken back`
      : `Warping: ${count(steps, 'step')} done`,
  cutOff: () => 'Cut off the loom',
  pinned: () => 'Put a pin in at the fell',
  measured: ({ loomLength, from, tension }, book) => {
    const start = from.kind === 'start' ? 'from the start' : 'from a pin';
    return `Measured ${far(book, loomLength)} ${start}; ${tension}`;
  },
  readingStruck: () => 'Struck a reading out',
  aimRefused: () => 'Kept the picks as they were after a reading',
  blockKept: ({ piece, block, by }, book) =>
    `Keep the ${by} of ${nameOfBlock(book, { piece, block })}`,
  mirrorKept: ({ piece, by }, book) =>
    `Match the ${by} in the second half of ${nameOfPiece(book, piece)}`,
  revised: ({ from }, book) => `Changed the plan from ${nameOfPiece(book, from)} on`,
  weighed: ({ yarn, grams, tare }, book) =>
    `Weighed ${nameOfYarn(book, yarn)}: ${weight(book, grams)}; of that ${weight(book, tare)} cones and shuttles`,
  bobbinChanged: ({ yarn }, book) => `New bobbin of ${nameOfYarn(book, yarn)}`,
  clothRead: (event, book) => `${read(book, event)}${about(book, event.piece)}`,
  warpRead: (event, book) => read(book, event),
  endRavelled: (event, book) => `${read(book, event)}${about(book, event.piece)}`,
  learntFrom: ({ piece, counts }, book) =>
    counts === 'in'
      ? `The next plans learn from it${about(book, piece)}`
      : `The next plans do not learn from it${about(book, piece)}`,
  noted: ({ text, piece }, book) => `Note${about(book, piece)}: ${text}`,
  photographed: ({ text, piece }, book) =>
    `Photo${about(book, piece)}${text === undefined ? '' : `: ${text}`}`,
};
