/** What the Keep safe screen says. */

import type { Holds } from '../../../core/backup/file/backupFile.ts';
import {
  BACKUP_PROBLEM_CODES,
  type BackupProblem,
  type BackupProblemCode,
} from '../../../core/backup/file/problems.ts';
import type { RecordOutcome } from '../../../core/backup/merge/planImport.ts';
import type { SnapshotNote, SnapshotReason } from '../../../core/backup/snapshots.ts';
import type { Problem } from '../../../core/plan/problems.ts';
import type { StoreState } from '../../../store/herald.ts';
import type { Persistence } from '../../device/persistence.ts';
import { LITTLE_ROOM } from '../../device/room.ts';
import { list } from '../../format.ts';
import type { Done, IncomingRow, Source } from '../../keeping/comingIn.ts';
import { t } from '../../language/t.ts';
import { sizeWords } from '../../parts/sizeWords.ts';
import { whenWords } from '../../parts/when.ts';
import { type ProblemWords, wordsFor } from '../../problemWords.ts';

export function holdsWords({ warps, events, records }: Holds): string {
  return list([
    t('{n, plural, one {# warp} other {# warps}}', { n: warps }),
    ...(events === 0 ? [] : [entriesWords(warps, events)]),
    ...(records === 0 ? [] : [KINDS.other(records)]),
  ]);
}

const entriesWords = (warps: number, n: number) =>
  warps === 1
    ? t('{n, plural, one {# entry} other {# entries}} in its log', { n })
    : t('{n, plural, one {# entry} other {# entries}} in their logs', { n });

/** How many of a kind of thing, here and in a file. */
const KINDS = {
  draft: (n: number) => t('{n, plural, one {# draft} other {# drafts}}', { n }),
  yarn: (n: number) => t('{n, plural, one {# yarn} other {# yarns}}', { n }),
  heddle: (n: number) => t('{n, plural, one {# heddle} other {# heddles}}', { n }),
  motif: (n: number) => t('{n, plural, one {# motif} other {# motifs}}', { n }),
  learnt: (n: number) => t('{n, plural, one {# measured warp} other {# measured warps}}', { n }),
  photo: (n: number) => t('{n, plural, one {# photo} other {# photos}}', { n }),
  other: (n: number) => t('{n, plural, one {# other thing} other {# other things}}', { n }),
} as const;

const isKind = (kind: string): kind is keyof typeof KINDS => Object.hasOwn(KINDS, kind);

export const ROW_TAGS: Record<IncomingRow['kind'], string> = {
  new: t('new'),
  continued: t('goes on'),
  branch: t('two ways'),
  same: t('same'),
  older: t('older'),
};

const picks = (n: number | null) =>
  n === null ? t('unreadable') : t('{n, plural, one {# pick} other {# picks}}', { n });

/** What will become of one warp. */
export function rowWords({ kind, here, there }: IncomingRow): string {
  switch (kind) {
    case 'new':
      return there === null
        ? t('Not here yet. Its plan cannot be read by this version.')
        : t('Not here yet: {there}.', { there: picks(there) });
    case 'continued':
      return t('Woven on there: {here} here become {there}.', {
        here: picks(here),
        there: picks(there),
      });
    case 'branch':
      return t('Woven on here and there: {here} here, {there} there. Both stay, and you choose.', {
        here: picks(here),
        there: picks(there),
      });
    case 'same':
      return t('Just as it is here: {here}.', { here: picks(here) });
    case 'older':
      return t('All of it is here already: {here} here, {there} there.', {
        here: picks(here),
        there: picks(there),
      });
  }
}

/** What will become of drafts and the shelf; a line for each thing to say. */
export function recordWords(records: readonly RecordOutcome[]): readonly string[] {
  const of = (kind: RecordOutcome['kind']) => kindsWords(records.filter((it) => it.kind === kind));
  return [
    ...of('new').map((it) => t('New: {it}.', { it })),
    ...of('newer').map((it) =>
      t('Changed later there, so it takes the place of the one here: {it}.', { it }),
    ),
    ...of('older').map((it) => t('Changed later here, so it stays as it is: {it}.', { it })),
    ...of('same').map((it) => t('Just as here: {it}.', { it })),
  ];
}

function kindsWords(records: readonly RecordOutcome[]): readonly string[] {
  if (records.length === 0) return [];
  const kinds = [...new Set(records.map(({ record }) => record.kind))];
  const words = kinds.map((kind) => {
    const n = records.filter(({ record }) => record.kind === kind).length;
    return KINDS[isKind(kind) ? kind : 'other'](n);
  });
  return [list(words)];
}

export function sourceName(source: Source, now: Date): string {
  if (source.kind === 'file') return t('“{name}”', { name: source.name });
  return t('the snapshot of {when}', { when: whenWords(source.note.madeAt, now) });
}

export function doneWords({ kind, source }: Done, now: Date): string {
  const name = sourceName(source, now);
  switch (kind) {
    case 'brought-in':
      return t('What was new in {name} is here now.', { name });
    case 'replaced':
      return t('Everything is as in {name} now. The state before is kept as a snapshot.', { name });
    case 'undone':
      return t('Undone: everything is as it was before.');
  }
}

/** In how many copies everything lies here. */
export const COPIES: Record<StoreState['copies'], string> = {
  two: t(
    'Everything is kept twice, in two places of this browser: if one is damaged it is mended from the other.',
  ),
  missing: t(
    'Everything is kept once: this browser has no place for a second copy. A backup outside this device matters the more.',
  ),
  failed: t(
    'Everything is kept once at the moment: the second copy does not work. It is tried again by itself.',
  ),
  unknown: t('Another window of Fellmark writes, and sees to both copies.'),
};

/** What the browser answered when it was asked to keep everything. */
export const PROMISES: Record<Persistence, string> = {
  granted: t('The browser has promised not to clear it away when room runs short.'),
  refused: t(
    'The browser has not promised to keep it when room runs short. It may once Fellmark is installed or used often; it is asked at every start.',
  ),
  missing: t('This browser cannot be asked to keep it when room runs short.'),
  asked: t('The browser is being asked to keep it when room runs short.'),
};

const GIGABYTE = 1e9;

export function roomWords(bytes: number): string {
  if (bytes < LITTLE_ROOM)
    return t(
      'There is little room left: {room}. Save a backup, then free some space on this device.',
      { room: sizeWords(bytes) },
    );
  const room =
    bytes < GIGABYTE ? sizeWords(bytes) : t('{n} GB', { n: Math.floor(bytes / GIGABYTE) });
  return t('There is room for {room} more.', { room });
}

const REASONS: Record<SnapshotReason, string> = {
  weaving: t('while weaving'),
  import: t('before a backup came in'),
  restore: t('before going back'),
  replace: t('before everything was replaced'),
  removal: t('before something was removed'),
  migration: t('before an update changed the storage'),
};

export function snapshotWords({ reason, about }: SnapshotNote): string {
  return about === undefined
    ? REASONS[reason]
    : t('{why}: {about}', { why: REASONS[reason], about });
}

/** What is wrong with a backup file, and what would be right. */
export function wordsForBackup(problem: BackupProblem): ProblemWords {
  const { got = t('nothing'), right = '' } = problem;
  const own = OWN_WORDS[problem.code];
  if (own !== undefined) return { wrong: own.wrong(got, right), right: own.right(right) };
  return isPlanProblem(problem) ? wordsFor(problem) : { wrong: problem.code, right };
}

function isPlanProblem(problem: BackupProblem): problem is Problem {
  return !BACKUP_PROBLEM_CODES.some((code) => code === problem.code);
}

interface Wording {
  readonly wrong: (got: string, right: string) => string;
  readonly right: (right: string) => string;
}

type OwnCode = (typeof BACKUP_PROBLEM_CODES)[number];

const UNHARMED = t('Take another copy of it, or an older backup.');

const OWN_WORDS: Record<OwnCode, Wording> & { readonly [C in BackupProblemCode]?: Wording } = {
  'cut-short': {
    wrong: () => t('The file ends too early: a part of it is missing.'),
    right: () => UNHARMED,
  },
  changed: {
    wrong: () =>
      t('The file is not as it was written: something in it was changed or lost on its way.'),
    right: () => UNHARMED,
  },
  'count-differs': {
    wrong: (got, right) => t('There are {got} here, and the file says {right}.', { got, right }),
    right: () => UNHARMED,
  },
  'bad-time': {
    wrong: (got) => t('“{got}” is not a time.', { got }),
    right: () => t('Such as 2026-11-27T14:30:00.000Z.'),
  },
  'unknown-event': {
    wrong: (got) => t('This version does not know what “{got}” is.', { got }),
    right: () => t('The backup may come from a newer Fellmark: update the app.'),
  },
  'same-id': {
    wrong: (got) => t('“{got}” is there twice.', { got }),
    right: () => t('Each may be there once.'),
  },
  'not-json': {
    wrong: () => t('The file is not readable as JSON.'),
    right: () => t('A backup is a .json file, whole and unchanged.'),
  },
  'too-large': {
    wrong: () => t('The file is too large for a backup.'),
    right: (right) => t('At most {right}.', { right }),
  },
  'wrong-format': {
    wrong: (got) => t('This is not a Fellmark backup: format is {got}.', { got }),
    right: (right) => t('format should be “{right}”.', { right }),
  },
  'newer-version': {
    wrong: (got) => t('The backup was made by a newer Fellmark (version {got}).', { got }),
    right: (right) => t('This app reads up to version {right}: update the app.', { right }),
  },
  'wrong-version': {
    wrong: (got) => t('The backup’s version is {got}.', { got }),
    right: (right) => t('version should be {right}.', { right }),
  },
  'unknown-field': {
    wrong: () => t('A backup has no such field.'),
    right: () => t('Take it out, or check how it is spelt.'),
  },
};
