/** From the text of a file to a backup, or to everything that is wrong with it. */
import { fail, ok, type Result } from '../../measure/result.ts';
import { MOST_PROBLEMS, shown } from '../../plan/checkPlan.ts';
import {
  BACKUP_FORMAT,
  BACKUP_LIMITS,
  BACKUP_VERSION,
  type Backup,
  checksumOfBody,
  type Holds,
  holdsOf,
} from './backupFile.ts';
import { decodeBackup } from './decodeBackup.ts';
import { hugeNumberIn } from './hugeNumber.ts';
import { jsonSizeOf } from './jsonSize.ts';
import type { BackupProblem, BackupProblemCode } from './problems.ts';

export type BackupResult = Result<Backup, readonly BackupProblem[]>;

/**
 * Reads the text of a backup file. Never throws. A file that is whole gives what was written, also
 * plans and things of the shelf that this version cannot read; any other gives its problems and
 * nothing else.
 */
export function readBackup(text: string): BackupResult {
  const parsed = parsedWithin(text);
  if (!parsed.ok) return fail([parsed.problem]);
  const head = headProblem(parsed.value);
  if (head !== null) return fail([head]);
  const huge = hugeNumberIn(parsed.value);
  if (huge !== null) return fail([tooHuge(huge)]);
  const { checksum, ...body } = parsed.value as { readonly [key: string]: unknown };
  const changed = checksumProblem(checksum, body);
  const decoded = decodeBackup(body);
  const rest = decoded.ok ? countProblems(body, decoded.value) : decoded.problem;
  const problems = [...changed, ...rest].slice(0, MOST_PROBLEMS);
  return decoded.ok && problems.length === 0 ? decoded : fail(problems);
}

/**
 * The JSON of a file, unless it is too big or too deep to be one of ours, or no JSON at all. `nesting`:
 * lists and objects within each other at most.
 */
export function parsedWithin(
  text: string,
  nesting: number = BACKUP_LIMITS.nesting,
): Result<unknown, BackupProblem> {
  if (text.length > BACKUP_LIMITS.text) return fail(problem('', 'too-large', '200 MB'));
  const size = jsonSizeOf(text);
  if (size.nesting > nesting) return fail(problem('', 'too-deep', String(nesting)));
  if (size.brackets > BACKUP_LIMITS.brackets || size.commas > BACKUP_LIMITS.commas)
    return fail(problem('', 'too-large', `${BACKUP_LIMITS.brackets} entries`));
  try {
    return ok(JSON.parse(text));
  } catch {
    const begun = text.trimStart().startsWith('{') && !text.trimEnd().endsWith('}');
    return fail(problem('', begun ? 'cut-short' : 'not-json'));
  }
}

function headProblem(file: unknown): BackupProblem | null {
  if (typeof file !== 'object' || file === null || Array.isArray(file))
    return problem('', 'wrong-type', 'object', shown(file));
  const { format, version } = file as { format?: unknown; version?: unknown };
  if (format !== BACKUP_FORMAT)
    return problem('format', 'wrong-format', BACKUP_FORMAT, shown(format));
  if (version === BACKUP_VERSION) return null;
  const newer = Number.isInteger(version) && Number(version) > BACKUP_VERSION;
  const code = newer ? 'newer-version' : 'wrong-version';
  return problem('version', code, String(BACKUP_VERSION), shown(version));
}

/** A number that is read as infinite. */
export function tooHuge(path: string): BackupProblem {
  return problem(path, 'too-big', String(Number.MAX_VALUE), 'The number');
}

function checksumProblem(checksum: unknown, body: object): readonly BackupProblem[] {
  if (checksum === undefined) return [problem('checksum', 'missing')];
  return checksum === checksumOfBody(body) ? [] : [problem('', 'changed')];
}

function countProblems(body: object, backup: Backup): readonly BackupProblem[] {
  const said: unknown = 'holds' in body ? body.holds : undefined;
  if (typeof said !== 'object' || said === null) return [problem('holds', 'missing')];
  const holds: Holds = holdsOf(backup);
  return (Object.keys(holds) as (keyof Holds)[]).flatMap((name) => {
    const told = (said as { readonly [key: string]: unknown })[name];
    if (told === holds[name]) return [];
    return [problem(`holds.${name}`, 'count-differs', shown(told), String(holds[name]))];
  });
}

function problem(
  path: string,
  code: BackupProblemCode,
  right?: string,
  got?: string,
): BackupProblem {
  return {
    path,
    code,
    ...(got === undefined ? {} : { got }),
    ...(right === undefined ? {} : { right }),
  };
}
