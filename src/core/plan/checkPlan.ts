/** From unknown input to a plan, or to a list of everything that is wrong with it. */
import * as v from 'valibot';
import { fail, ok, type Result } from '../measure/result.ts';
import { checkMeaning } from './checkMeaning.ts';
import { LIMITS } from './limits.ts';
import { onceRight } from './onceRight.ts';
import { type Piece, PLAN_FORMAT, PLAN_VERSION, type Plan } from './plan.ts';
import type { Problem, ProblemCode } from './problems.ts';
import { remembering } from './remembering.ts';
import { planSchema, planSchemaOf } from './schema.ts';

export type PlanResult = Result<Plan, readonly Problem[]>;

/** Reads the text of a plan file. Never throws; a file over 2 MB is refused unread. */
export function readPlanText(text: string): PlanResult {
  if (text.length > LIMITS.fileBytes) return fail([problem('', 'too-large', undefined, '2 MB')]);
  let input: unknown;
  try {
    input = JSON.parse(text);
  } catch {
    return fail([problem('', 'not-json')]);
  }
  return checkPlan(input);
}

/** Turns unknown input into a Plan, or into problems with path, what is wrong and what would be right. */
export function checkPlan(input: unknown): PlanResult {
  return checkBy(planSchema, input, nestingOver(input, LIMITS.nesting));
}

const draftSchema = planSchemaOf(onceRight);

/**
 * The same for a plan that is being edited: its parts are readonly, so that those found right before are
 * not looked at again, and come out as the very objects they came out as then.
 */
export function checkDraft(draft: Plan): PlanResult {
  const { pieces, ...rest } = draft;
  const isTooDeep =
    objectsIn(Object.values(rest)).some((it) => partNestsTooDeep(it)) ||
    pieces.some((it) => pieceNestsTooDeep(it));
  return checkBy(draftSchema, draft, isTooDeep);
}

const partNestsTooDeep = remembering((part: object) => nestingOver(part, LIMITS.nesting - 1));
/** A piece lies two levels deep in its plan. */
const pieceNestsTooDeep = remembering((piece: Piece) => nestingOver(piece, LIMITS.nesting - 2));

function checkBy(
  schema: v.GenericSchema<unknown, Plan>,
  input: unknown,
  isTooDeep: boolean,
): PlanResult {
  if (isTooDeep) return fail([problem('', 'too-deep', undefined, String(LIMITS.nesting))]);
  const head = checkHead(input);
  if (head !== null) return fail([head]);
  const parsed = v.safeParse(schema, input, { abortPipeEarly: true });
  if (!parsed.success) return fail(parsed.issues.slice(0, MOST_PROBLEMS).map(problemOf));
  const meaning = checkMeaning(parsed.output);
  return meaning.length > 0 ? fail(meaning.slice(0, MOST_PROBLEMS)) : ok(parsed.output);
}

export const MOST_PROBLEMS = 50;

/** Whether a value nests deeper than `most`; walks with a list of its own, so depth cannot break it. */
function nestingOver(input: unknown, most: number): boolean {
  let level: readonly object[] = objectsIn([input]);
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > most) return true;
    level = [...new Set(level.flatMap((value) => objectsIn(Object.values(value))))];
  }
  return false;
}

function objectsIn(values: readonly unknown[]): object[] {
  return values.filter((value) => typeof value === 'object' && value !== null);
}

function checkHead(input: unknown): Problem | null {
  if (typeof input !== 'object' || input === null || Array.isArray(input)) {
    return problem('', 'wrong-type', shown(input), 'object');
  }
  const { format, version } = input as { format?: unknown; version?: unknown };
  if (format !== PLAN_FORMAT) return problem('format', 'wrong-format', shown(format), PLAN_FORMAT);
  if (typeof version === 'number' && Number.isInteger(version) && version > PLAN_VERSION) {
    return problem('version', 'newer-version', shown(version), String(PLAN_VERSION));
  }
  if (version !== PLAN_VERSION)
    return problem('version', 'wrong-version', shown(version), String(PLAN_VERSION));
  return null;
}

type Issue = v.GenericIssue;

/** What one complaint of the schema means to the weaver. */
export function problemOf(issue: Issue): Problem {
  const path = pathOf(issue);
  const code = codeOf(issue);
  return problem(path, code, shown(issue.input), rightOf(issue, code));
}

function codeOf(issue: Issue): ProblemCode {
  switch (issue.type) {
    case 'strict_object':
      return issue.expected === 'never'
        ? 'unknown-field'
        : issue.received === 'undefined'
          ? 'missing'
          : 'wrong-type';
    case 'picklist':
    case 'literal':
    case 'variant':
      return issue.input === undefined ? 'missing' : 'not-one-of';
    case 'integer':
      return 'not-whole';
    case 'min_value':
      return 'too-small';
    case 'max_value':
      return 'too-big';
    case 'min_length':
      return pathOf(issue) === 'warp.order' ? 'no-ends' : 'too-short';
    case 'max_length':
      return 'too-long';
    case 'regex':
      return /(?:^|\]\.)colour$/.test(pathOf(issue)) ? 'bad-colour' : 'bad-letter';
    default:
      return issue.input === undefined ? 'missing' : 'wrong-type';
  }
}

function rightOf(issue: Issue, code: ProblemCode): string | undefined {
  if (code === 'unknown-field') return undefined;
  if ('requirement' in issue && ['string', 'number'].includes(typeof issue.requirement))
    return String(issue.requirement);
  return issue.expected === null ? undefined : issue.expected.replaceAll('"', '');
}

function pathOf(issue: Issue): string {
  return (issue.path ?? []).reduce((path, item) => {
    const key = String(item.key).slice(0, 60);
    if (typeof item.key === 'number') return `${path}[${key}]`;
    return path === '' ? key : `${path}.${key}`;
  }, '');
}

/** What stood there, short enough to show; never throws, whatever it is. */
export function shown(value: unknown): string | undefined {
  if (value === undefined) return undefined;
  if (typeof value === 'object' && value !== null)
    return Array.isArray(value) ? 'a list' : 'an object';
  return String(value).slice(0, 60);
}

/** A problem that has no `got` or `right` where nothing is to be said, instead of an undefined one. */
export function problem(path: string, code: ProblemCode, got?: string, right?: string): Problem {
  return {
    path,
    code,
    ...(got === undefined ? {} : { got }),
    ...(right === undefined ? {} : { right }),
  };
}
