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
import { count, list } from '../../format.ts';
import type { Done, IncomingRow, Source } from '../../keeping/comingIn.ts';
import { sizeWords } from '../../parts/fileOffer.tsx';
import { whenWords } from '../../parts/when.ts';
import { type ProblemWords, wordsFor } from '../../problemWords.ts';

export function holdsWords({ warps, events, records }: Holds): string {
  const logs = warps === 1 ? 'in its log' : 'in their logs';
  return list([
    count(warps, 'warp'),
    ...(events === 0 ? [] : [`${count(events, 'entry', 'entries')} ${logs}`]),
    ...(records === 0 ? [] : [count(records, 'other thing', 'other things')]),
  ]);
}

/** Words for a kind of thing, here and in a file. */
const KINDS: { readonly [kind: string]: readonly [one: string, many: string] } = {
  draft: ['draft', 'drafts'],
  yarn: ['yarn', 'yarns'],
  heddle: ['heddle', 'heddles'],
  motif: ['motif', 'motifs'],
  learnt: ['measured warp', 'measured warps'],
  photo: ['photo', 'photos'],
};

export const ROW_TAGS: Record<IncomingRow['kind'], string> = {
  new: 'new',
  continued: 'goes on',
  branch: 'two ways',
  same: 'same',
  older: 'older',
};

const picks = (n: number | null) => (n === null ? 'unreadable' : count(n, 'pick'));

/** What will become of one warp. */
export function rowWords({ kind, here, there }: IncomingRow): string {
  switch (kind) {
    case 'new':
      return there === null
        ? 'Not here yet. Its plan cannot be read by this version.'
        : `Not here yet: ${picks(there)}.`;
    case 'continued':
      return `Woven on there: ${picks(here)} here become ${picks(there)}.`;
    case 'branch':
      return `Woven on here and there: ${picks(here)} here, ${picks(there)} there. Both stay, and you choose.`;
    case 'same':
      return `Just as it is here: ${picks(here)}.`;
    case 'older':
      return `All of it is here already: ${picks(here)} here, ${picks(there)} there.`;
  }
}

/** What will become of drafts and the shelf; a line for each thing to say. */
export function recordWords(records: readonly RecordOutcome[]): readonly string[] {
  const of = (kind: RecordOutcome['kind']) => kindsWords(records.filter((it) => it.kind === kind));
  return [
    ...of('new').map((it) => `New: ${it}.`),
    ...of('newer').map(
      (it) => `Changed later there, so it takes the place of the one here: ${it}.`,
    ),
    ...of('older').map((it) => `Changed later here, so it stays as it is: ${it}.`),
    ...of('same').map((it) => `Just as here: ${it}.`),
  ];
}

function kindsWords(records: readonly RecordOutcome[]): readonly string[] {
  if (records.length === 0) return [];
  const kinds = [...new Set(records.map(({ record }) => record.kind))];
  const words = kinds.map((kind) => {
    const n = records.filter(({ record }) => record.kind === kind).length;
    const [one, many] = Object.hasOwn(KINDS, kind) ? (KINDS[kind] ?? OTHER) : OTHER;
    return count(n, one, many);
  });
  return [list(words)];
}

const OTHER = ['other thing', 'other things'] as const;

export function sourceName(source: Source, now: Date): string {
  if (source.kind === 'file') return `“${source.name}”`;
  return `the snapshot of ${whenWords(source.note.madeAt, now)}`;
}

export function doneWords({ kind, source }: Done, now: Date): string {
  const name = sourceName(source, now);
  switch (kind) {
    case 'brought-in':
      return `What was new in ${name} is here now.`;
    case 'replaced':
      return `Everything is as in ${name} now. The state before is kept as a snapshot.`;
    case 'undone':
      return 'Undone: everything is as it was before.';
  }
}

/** In how many copies everything lies here. */
export const COPIES: Record<StoreState['copies'], string> = {
  two: 'Everything is kept twice, in two places of this browser: if one is damaged it is mended from the other.',
  missing:
    'Everything is kept once: this browser has no place for a second copy. A backup outside this device matters the more.',
  failed:
    'Everything is kept once at the moment: the second copy does not work. It is tried again by itself.',
  unknown: 'Another window of Fellmark writes, and sees to both copies.',
};

/** What the browser answered when it was asked to keep everything. */
export const PROMISES: Record<Persistence, string> = {
  granted: 'The browser has promised not to clear it away when room runs short.',
  refused:
    'The browser has not promised to keep it when room runs short. It may once Fellmark is installed or used often; it is asked at every start.',
  missing: 'This browser cannot be asked to keep it when room runs short.',
  asked: 'The browser is being asked to keep it when room runs short.',
};

const GIGABYTE = 1e9;

export function roomWords(bytes: number): string {
  if (bytes < LITTLE_ROOM)
    return `There is little room left: ${sizeWords(bytes)}. Save a backup, then free some space on this device.`;
  const room = bytes < GIGABYTE ? sizeWords(bytes) : `${Math.floor(bytes / GIGABYTE)} GB`;
  return `There is room for ${room} more.`;
}

const REASONS: Record<SnapshotReason, string> = {
  weaving: 'while weaving',
  import: 'before a backup came in',
  restore: 'before going back',
  replace: 'before everything was replaced',
  removal: 'before something was removed',
  migration: 'before an update changed the storage',
};

export function snapshotWords({ reason, about }: SnapshotNote): string {
  return about === undefined ? REASONS[reason] : `${REASONS[reason]}: ${about}`;
}

/** What is wrong with a backup file, and what would be right. */
export function wordsForBackup(problem: BackupProblem): ProblemWords {
  const { got = 'nothing', right = '' } = problem;
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

const UNHARMED = 'Take another copy of it, or an older backup.';

const OWN_WORDS: Record<OwnCode, Wording> & { readonly [C in BackupProblemCode]?: Wording } = {
  'cut-short': {
    wrong: () => 'The file ends too early: a part of it is missing.',
    right: () => UNHARMED,
  },
  changed: {
    wrong: () =>
      'The file is not as it was written: something in it was changed or lost on its way.',
    right: () => UNHARMED,
  },
  'count-differs': {
    wrong: (got, right) => `There are ${got} here, and the file says ${right}.`,
    right: () => UNHARMED,
  },
  'bad-time': {
    wrong: (got) => `“${got}” is not a time.`,
    right: () => 'Such as 2026-11-27T14:30:00.000Z.',
  },
  'unknown-event': {
    wrong: (got) => `This version does not know what “${got}” is.`,
    right: () => 'The backup may come from a newer Fellmark: update the app.',
  },
  'same-id': {
    wrong: (got) => `“${got}” is there twice.`,
    right: () => 'Each may be there once.',
  },
  'not-json': {
    wrong: () => 'The file is not readable as JSON.',
    right: () => 'A backup is a .json file, whole and unchanged.',
  },
  'too-large': {
    wrong: () => 'The file is too large for a backup.',
    right: (right) => `At most ${right}.`,
  },
  'wrong-format': {
    wrong: (got) => `This is not a Fellmark backup: format is ${got}.`,
    right: (right) => `format should be “${right}”.`,
  },
  'newer-version': {
    wrong: (got) => `The backup was made by a newer Fellmark (version ${got}).`,
    right: (right) => `This app reads up to version ${right}: update the app.`,
  },
  'wrong-version': {
    wrong: (got) => `The backup’s version is ${got}.`,
    right: (right) => `version should be ${right}.`,
  },
  'unknown-field': {
    wrong: () => 'A backup has no such field.',
    right: () => 'Take it out, or check how it is spelt.',
  },
};
