/** The log of a warp as a table: a line for each thing that happened, in words. */

import { type Cell, csvText } from '../../../core/backup/csv.ts';
import { picksAlong } from '../../../core/bench/alongLog.ts';
import type { Happening, HappeningKind, LogEvent } from '../../../core/bench/events.ts';
import { pieceAt } from '../../../core/bench/pickAt.ts';
import { type Progress, progressOf } from '../../../core/bench/progress.ts';
import { cancelledBy } from '../../../core/bench/undo.ts';
import { formatMass } from '../../../core/measure/mass.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { inOurNumbers, length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { type Readings, readWords } from '../journal/words.ts';
import { dueTitle } from '../weave/words.ts';

// Names of columns are data, and not for a reader's language: whatever reads the table looks for them.
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
  if (!Object.hasOwn(WORDS, event.kind)) return t('Something this version does not know');
  const words = WORDS[event.kind] as (event: Happening, book: Book) => string;
  return words(event, book);
}

const nameOfPiece = ({ plan, progress }: Book, piece: number) =>
  (progress.course.plan.pieces[piece] ?? plan.pieces[piece])?.name ??
  t('piece {n}', { n: piece + 1 });
const nameOfBlock = (book: Book, { piece, block }: { piece: number; block: number }) =>
  t('block {n} of {piece}', { n: block + 1, piece: nameOfPiece(book, piece) });
const nameOfYarn = ({ plan }: Book, letter: string) => {
  const yarn = plan.yarns.find((it) => it.letter === letter);
  return yarn === undefined ? letter : `${letter} ${yarn.name}`;
};
const nameOfDue = ({ progress }: Book, id: string) => {
  const due = progress.dues.find((it) => it.id === id);
  return due === undefined ? t('what was due') : dueTitle(progress.course.plan, due).toLowerCase();
};
const lineOf = ({ lines }: Book, id: string) => lines.get(id) ?? '?';
const far = ({ plan }: Book, mm: number) => length(mm, plan.units);
const read = ({ plan }: Book, what: Readings) => readWords(what, plan.units);
/** Of a piece, or of the whole warp. */
const about = (book: Book, piece: number | undefined) =>
  piece === undefined ? '' : ` (${nameOfPiece(book, piece)})`;
const weight = ({ plan }: Book, grams: number) => inOurNumbers(formatMass(grams, plan.units));

const WORDS: Words = {
  thrown: ({ picks }) => t('{picks, plural, =1 {Thrown} other {Thrown: # picks}}', { picks }),
  takenOut: ({ picks }) => t('Taken out: {picks, plural, one {# pick} other {# picks}}', { picks }),
  woveLength: ({ loomLength }, book) => t('Woven: {far}', { far: far(book, loomLength) }),
  thrownOf: ({ yarn, picks }, book) =>
    t('Thrown: {picks, plural, one {# pick} other {# picks}} of {yarn}', {
      picks,
      yarn: nameOfYarn(book, yarn),
    }),
  woveLengthOf: ({ yarn, loomLength }, book) =>
    t('Woven: {far} of {yarn}', { far: far(book, loomLength), yarn: nameOfYarn(book, yarn) }),
  freeEnded: () => t('Done weaving by eye'),
  undone: ({ event }, book) => t('Undid line {line}', { line: lineOf(book, event) }),
  redone: ({ event }, book) => t('Did line {line} again', { line: lineOf(book, event) }),
  otherShed: () => t('Took the other shed'),
  placed: ({ pick, shed }) =>
    t('Found the place: {pick, plural, one {# pick} other {# picks}} woven; shed {shed} next', {
      pick,
      shed,
    }),
  dueDone: ({ due }, book) => t('Done: {due}', { due: nameOfDue(book, due) }),
  dueDeferred: ({ due }, book) => t('Put off: {due}', { due: nameOfDue(book, due) }),
  advanced: () => t('Advanced the warp'),
  blockSet: ({ piece, block, picks }, book) =>
    t('Set {block} to {picks, plural, one {# pick} other {# picks}}', {
      block: nameOfBlock(book, { piece, block }),
      picks,
    }),
  warped: ({ steps }) =>
    steps < 0
      ? t('Warping: {n, plural, one {# step} other {# steps}} taken back', { n: -steps })
      : t('Warping: {n, plural, one {# step} other {# steps}} done', { n: steps }),
  cutOff: () => t('Cut off the loom'),
  pinned: () => t('Put a pin in at the fell'),
  measured: ({ loomLength, from, tension }, book) =>
    t(
      'Measured {far} {from, select, start {from the start} other {from a pin}}; {tension, select, tight {tight} other {eased}}',
      { far: far(book, loomLength), from: from.kind, tension },
    ),
  readingStruck: () => t('Struck a reading out'),
  aimRefused: () => t('Kept the picks as they were after a reading'),
  blockKept: ({ piece, block, by }, book) =>
    t('Keep the {by, select, picks {picks} other {length}} of {block}', {
      by,
      block: nameOfBlock(book, { piece, block }),
    }),
  mirrorKept: ({ piece, by }, book) =>
    t('Match the {by, select, picks {picks} other {length}} in the second half of {piece}', {
      by,
      piece: nameOfPiece(book, piece),
    }),
  revised: ({ from }, book) =>
    t('Changed the plan from {piece} on', { piece: nameOfPiece(book, from) }),
  weighed: ({ yarn, grams, tare }, book) =>
    t('Weighed {yarn}: {grams}; of that {tare} cones and shuttles', {
      yarn: nameOfYarn(book, yarn),
      grams: weight(book, grams),
      tare: weight(book, tare),
    }),
  bobbinChanged: ({ yarn }, book) => t('New bobbin of {yarn}', { yarn: nameOfYarn(book, yarn) }),
  clothRead: (event, book) => `${read(book, event)}${about(book, event.piece)}`,
  warpRead: (event, book) => read(book, event),
  endRavelled: (event, book) => `${read(book, event)}${about(book, event.piece)}`,
  learntFrom: ({ piece, counts }, book) =>
    counts === 'in'
      ? t('The next plans learn from it{about}', { about: about(book, piece) })
      : t('The next plans do not learn from it{about}', { about: about(book, piece) }),
  noted: ({ text, piece }, book) => t('Note{about}: {text}', { about: about(book, piece), text }),
  photographed: ({ text, piece }, book) =>
    text === undefined
      ? t('Photo{about}', { about: about(book, piece) })
      : t('Photo{about}: {text}', { about: about(book, piece), text }),
};
