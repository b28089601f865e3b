/**
 * Ten thousand files that nobody should have made: cut, turned over bit by bit, stuffed, nested, with
 * figures and keys that no writer writes. None may throw, each that is refused names its fault, and
 * each that is taken can be used and written again.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checksumOfBody, writeBackup } from '../../src/core/backup/file/backupFile.ts';
import { BACKUP_PROBLEM_CODES } from '../../src/core/backup/file/problems.ts';
import { readBackup } from '../../src/core/backup/file/readBackup.ts';
import { unreadIn } from '../../src/core/backup/file/unread.ts';
import { planImport } from '../../src/core/backup/merge/planImport.ts';
import { NO_ADJUSTMENTS } from '../../src/core/bench/adjustments.ts';
import { layCourse } from '../../src/core/bench/course.ts';
import { progressOf } from '../../src/core/bench/progress.ts';
import { checkPlan, readPlanText } from '../../src/core/plan/checkPlan.ts';
import { isDraft } from '../../src/core/plan/draftShape.ts';
import { PROBLEM_CODES } from '../../src/core/plan/problems.ts';
import { decodeShelfHeddle, decodeShelfYarn } from '../../src/core/plan/shelf.ts';
import { anyJson, picksOf, stateOf, timeAt, warpOf } from './backup/states.ts';
import { BASE, demo, demoText } from './plan/samples.ts';

const CODES: readonly string[] = [...PROBLEM_CODES, ...BACKUP_PROBLEM_CODES];

const SHELF_YARN = {
  id: 'y',
  name: 'Moss',
  colour: '#5d7043',
  count: { system: 'cottonCount', number: 8, plies: 2 },
  weighed: [{ at: timeAt(0), grams: 212, tare: 40 }],
};
const SHELF_HEDDLE = { id: 'h', name: '12½', dents: { count: 12.5, per: 'inch' }, width: 600 };

const HERE = stateOf([warpOf('w', picksOf('m', 5, picksOf('c', 3))), warpOf('v', [])]);
const BACKUP = writeBackup({
  madeAt: timeAt(90),
  app: '0.1.0',
  ...stateOf(
    [
      warpOf('w', picksOf('t', 4, picksOf('c', 3))),
      warpOf('d', [], { head: { demo: true }, plans: [] }),
    ],
    {
      records: [
        { kind: 'yarn', id: 'y', changedAt: timeAt(5), body: SHELF_YARN },
        { kind: 'draft', id: 'y', changedAt: timeAt(5), body: BASE },
      ],
      settings: [{ name: 'settings', value: { theme: 'dark' } }],
    },
  ),
});

/** Figures, texts and keys that have broken readers of files. */
const NASTY: readonly string[] = [
  '1e999',
  '-1e999',
  '1e308',
  '-0',
  '9007199254740993',
  '0.1e-400',
  '00',
  'NaN',
  'Infinity',
  '-',
  'null',
  'true',
  '""',
  '[]',
  '{}',
  '"\\u0000"',
  '"\\ud800"',
  '"\\',
  '{"__proto__": {"demo": true}}',
  '{"constructor": {"prototype": {"x": 1}}}',
  '{"toString": 1, "valueOf": 1}',
  '{"toJSON": 1}',
  '{"length": 4294967295}',
  '"__proto__"',
  '"constructor"',
  `"${'x'.repeat(5000)}"`,
  '['.repeat(300),
  `${'['.repeat(99)}${']'.repeat(99)}`,
  `${'{"of":'.repeat(45)}1${'}'.repeat(45)}`,
  '{"kind":"repeat","times":1000,"of":[{"kind":"repeat","times":1000,"of":[]}]}',
  '\ufeff',
  '\0',
  '/*',
];

/** A text with one thing done to it. */
const mangled = (text: string): fc.Arbitrary<string> => {
  const place = fc.nat(text.length);
  const span = fc.tuple(place, fc.nat(400)).map(([from, length]) => [from, from + length] as const);
  return fc.oneof(
    place.map((at) => text.slice(0, at)),
    place.map((at) => text.slice(at)),
    fc.tuple(place, fc.nat(15)).map(([at, bit]) => {
      const turned = String.fromCharCode(text.charCodeAt(at) ^ (1 << bit));
      return `${text.slice(0, at)}${turned}${text.slice(at + 1)}`;
    }),
    span.map(([from, to]) => `${text.slice(0, from)}${text.slice(to)}`),
    span.map(([from, to]) => `${text.slice(0, to)}${text.slice(from, to)}${text.slice(to)}`),
    fc
      .tuple(place, fc.constantFrom(...NASTY))
      .map(([at, it]) => `${text.slice(0, at)}${it}${text.slice(at)}`),
    fc.tuple(place, fc.constantFrom(...NASTY)).map(([at, it]) => insteadOfValue(text, at, it)),
    fc
      .tuple(place, fc.string({ unit: 'binary' }))
      .map(([at, it]) => `${text.slice(0, at)}${it}${text.slice(at)}`),
  );
};

/** The number or text nearest behind a place, replaced. */
function insteadOfValue(text: string, at: number, value: string): string {
  const found = /-?\d+(?:\.\d+)?|"(?:[^"\\]|\\.)*"/.exec(text.slice(at));
  if (found === null) return text;
  const from = at + found.index;
  return `${text.slice(0, from)}${value}${text.slice(from + found[0].length)}`;
}

/** The value with something else in one place: another value, a key more, a key gone, an item twice. */
const bent = (value: unknown): fc.Arbitrary<unknown> => {
  const paths = pathsIn(value);
  // Plans and bodies are most of a backup and are carried along unread.
  const outer = paths.filter((path) => !path.includes('plan') && !path.includes('body'));
  const place = fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...outer) },
    { weight: 1, arbitrary: fc.constantFrom(...paths) },
  );
  const other = fc.oneof(
    anyJson,
    fc.constantFrom<unknown>(1e308, -1, 0.5, 1e9, '', 'A', [], {}, null, true),
    fc.constantFrom(...paths).map((path) => valueAt(value, path)),
  );
  return fc.tuple(place, other, fc.nat(3)).map(([path, it, deed]) => {
    const copy = structuredClone(value);
    const last = path.at(-1);
    const around = valueAt(copy, path.slice(0, -1));
    if (last === undefined || typeof around !== 'object' || around === null) return it;
    if (deed === 0) Reflect.deleteProperty(around, last);
    else if (deed === 1) define(around, `${last}`, it);
    else if (deed === 2) define(around, '__proto__', it);
    else if (Array.isArray(around)) around.push(around[Number(last)]);
    else define(around, 'more', it);
    return copy;
  });
};

function define(target: object, key: string, value: unknown): void {
  Object.defineProperty(target, key, {
    value,
    enumerable: true,
    configurable: true,
    writable: true,
  });
}

type Path = readonly string[];

function pathsIn(value: unknown, path: Path = []): readonly Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, it]) => pathsIn(it, [...path, key]))];
}

function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>((it, key) => (it as { readonly [key: string]: unknown })[key], value);
}

interface Refused {
  readonly ok: false;
  readonly problem: readonly { readonly path: string; readonly code: string }[];
}

/** What a refusal must be: at least one fault, each with a code there are words for, and few. */
function faultsOf({ problem }: Refused): readonly string[] {
  const unknown = problem.filter(
    ({ code, path }) => !CODES.includes(code) || typeof path !== 'string',
  );
  if (problem.length === 0) return ['no fault named'];
  if (problem.length > 50) return ['too many named'];
  return unknown.map(({ code }) => `no words for ${code}`);
}

/** Reads a backup file and does with it all that the app does; answers what went wrong. */
function useBackup(text: string): readonly string[] {
  const read = readBackup(text);
  if (!read.ok) return faultsOf(read);
  const { madeAt, app } = read.value;
  const again = readBackup(writeBackup({ ...read.value, madeAt, app }));
  if (!again.ok) return again.problem.map(({ path, code }) => `written again: ${path} ${code}`);
  unreadIn(read.value);
  const { additions } = planImport(HERE, read.value);
  const own = additions.warps.filter(({ warp }) => HERE.warps.some((it) => it.warp.id === warp.id));
  for (const { plans, log } of read.value.warps) {
    const plan = checkPlan(plans.at(-1)?.plan);
    if (plan.ok && !Number.isSafeInteger(progressOf(plan.value, log).pick)) return ['no pick'];
  }
  return own.some(({ warp }) => warp.demo) ? ['a demo touched a warp of one’s own'] : [];
}

function usePlan(text: string): readonly string[] {
  const read = readPlanText(text);
  if (!read.ok) return faultsOf(read);
  return Number.isSafeInteger(layCourse(read.value, NO_ADJUSTMENTS).picks) ? [] : ['no picks'];
}

/** Each generated file is used once; all that went wrong with it is shown. */
function holds<T>(
  files: fc.Arbitrary<T>,
  use: (file: T) => readonly string[],
  numRuns: number,
): void {
  fc.assert(
    fc.property(files, (file) => {
      expect(use(file)).toEqual([]);
    }),
    { numRuns },
  );
}

describe('a backup file', () => {
  it('as it is, is used without a fault', () => {
    expect(useBackup(BACKUP)).toEqual([]);
    expect(readBackup(BACKUP).ok).toBe(true);
  });

  it('mangled, 3,000 times', { timeout: 120_000 }, () => {
    holds(mangled(BACKUP), useBackup, 3000);
  });

  it('bent inside, with a checksum that fits, 3,000 times', { timeout: 120_000 }, () => {
    const { checksum, ...body } = JSON.parse(BACKUP) as { readonly [key: string]: unknown };
    let taken = 0;
    const files = bent(body).map((it) => {
      const whole = typeof it === 'object' && it !== null ? it : {};
      return JSON.stringify({ ...whole, checksum: checksumOfBody(whole) });
    });
    const use = (text: string) => {
      if (readBackup(text).ok) taken++;
      return useBackup(text);
    };
    holds(files, use, 3000);
    // Plans, bodies and settings are carried along whatever they are, so some are taken.
    expect(taken).toBeGreaterThan(100);
  });
});

describe('a plan file', () => {
  it('mangled, 1,500 times', () => {
    holds(mangled(demoText('ink-oat-ochre')), usePlan, 1500);
  });

  it('bent inside, 1,500 times', () => {
    holds(
      bent(demo('moss-and-chalk')).map((it) => JSON.stringify(it) ?? ''),
      usePlan,
      1500,
    );
  });
});

describe('anything at all', () => {
  const refusedOrNot = (read: { readonly ok: true } | Refused) => (read.ok ? [] : faultsOf(read));

  it('as text, 500 times', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 200 }),
      anyJson.map((it) => JSON.stringify(it)),
      fc.constantFrom(...NASTY),
    );
    holds(text, (it) => [...useBackup(it), ...usePlan(it)], 500);
  });

  it('as a yarn, a heddle or a draft, 500 times', () => {
    const body = fc.oneof(anyJson, bent(SHELF_YARN), bent(SHELF_HEDDLE), bent(BASE));
    holds(
      body,
      (it) => {
        isDraft(it);
        return [...refusedOrNot(decodeShelfYarn(it)), ...refusedOrNot(decodeShelfHeddle(it))];
      },
      500,
    );
  });
});
