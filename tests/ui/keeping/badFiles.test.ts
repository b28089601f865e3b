/**
 * Ten thousand files that were bent on their way, or on purpose: read or refused, never a crash; what
 * is refused says why in words, and what is read comes in whole.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NOTHING } from '../../../src/core/backup/contents.ts';
import {
  type Backup,
  checksumOfBody,
  holdsOf,
  writeBackup,
} from '../../../src/core/backup/file/backupFile.ts';
import type { BackupProblem } from '../../../src/core/backup/file/problems.ts';
import { readBackup } from '../../../src/core/backup/file/readBackup.ts';
import { readRescue } from '../../../src/core/backup/file/readRescue.ts';
import { unreadIn } from '../../../src/core/backup/file/unread.ts';
import { planImport } from '../../../src/core/backup/merge/planImport.ts';
import { readPlanText } from '../../../src/core/plan/checkPlan.ts';
import { createMemoryStore } from '../../../src/store/memory.ts';
import { wordsForBackup } from '../../../src/ui/screens/keep/words.ts';
import { picksOf, stateOf, timeAt, warpOf } from '../../core/backup/states.ts';
import { demo, demoText } from '../../core/plan/samples.ts';

const STATE = stateOf(
  [
    warpOf('w', picksOf('p', 4), {
      plans: [{ revision: 0, madeAt: timeAt(0), plan: demo('moss-and-chalk') }],
    }),
    warpOf('x', []),
  ],
  {
    records: [{ kind: 'yarn', id: 'y', changedAt: timeAt(5), body: { name: 'Moss' } }],
    settings: [{ name: 'hand', value: 'left' }],
  },
);
const BACKUP = writeBackup({ madeAt: timeAt(90), app: '0.1.0', ...STATE });
const RESCUE = JSON.stringify({
  format: 'fellmark-rescue',
  version: 1,
  madeAt: timeAt(90),
  databases: [
    {
      name: 'fellmark',
      version: 3,
      rooms: [
        roomOf(
          'warps',
          STATE.warps.map(({ warp }) => warp),
        ),
        roomOf(
          'revisions',
          STATE.warps.flatMap(({ warp, plans }) => plans.map((it) => ({ warp: warp.id, ...it }))),
        ),
        roomOf(
          'events',
          STATE.warps.flatMap(({ log }) => log.map((it, seq) => ({ ...it, seq }))),
        ),
        roomOf('records', STATE.records),
        roomOf('settings', STATE.settings),
      ],
    },
  ],
});

function roomOf(name: string, values: readonly unknown[]): unknown {
  return { name, records: values.map((value, key) => ({ key, value })) };
}

type Bend = (text: string) => string;

/** Anywhere in a text however long. */
const place = fc.integer({ min: 0, max: 999_999 }).map((n) => n / 1_000_000);
const at = (text: string, share: number) => Math.floor(share * text.length);

/** What JSON allows and no file of ours holds. */
const SORE = [
  'null',
  'true',
  '-1',
  '0.5',
  '1e308',
  '1e999',
  '-0',
  '9007199254740993',
  '123456789012345678901234567890',
  '""',
  '"__proto__"',
  '"\\u0000"',
  '"\\ud800"',
  '"=1+1"',
  `"${'x'.repeat(5000)}"`,
  '[]',
  '{}',
  '{"__proto__":{"x":1}}',
  '{"constructor":{"prototype":{"x":1}}}',
  '{"toString":1,"valueOf":1,"toJSON":1,"length":1e9}',
  `${'['.repeat(60)}${']'.repeat(60)}`,
  `${'['.repeat(1500)}${']'.repeat(1500)}`,
] as const;
const sore = fc.constantFrom(...SORE);

/** Bends of the text, as a bad disk, a bad line or a bad editor makes them. */
const textual: fc.Arbitrary<Bend> = fc.oneof(
  place.map((share) => (text: string) => text.slice(0, at(text, share))),
  fc.tuple(place, fc.nat(15)).map(([share, bit]) => (text: string) => {
    const n = at(text, share);
    const turned = String.fromCharCode(text.charCodeAt(n) ^ (1 << bit));
    return `${text.slice(0, n)}${turned}${text.slice(n + 1)}`;
  }),
  fc.tuple(place, fc.nat(300)).map(
    ([share, length]) =>
      (text: string) =>
        text.slice(0, at(text, share)) + text.slice(at(text, share) + length),
  ),
  fc.tuple(place, fc.nat(300)).map(
    ([share, length]) =>
      (text: string) =>
        text.slice(0, at(text, share) + length) + text.slice(at(text, share)),
  ),
  fc.tuple(place, sore).map(
    ([share, what]) =>
      (text: string) =>
        text.slice(0, at(text, share)) + what + text.slice(at(text, share)),
  ),
  fc.tuple(place, sore).map(([share, what]) => (text: string) => {
    let n = 0;
    const tokens = text.match(TOKEN)?.length ?? 0;
    return text.replace(TOKEN, (token) => (n++ === Math.floor(share * tokens) ? what : token));
  }),
);
/** A number, or a text that is a value and not a name. */
const TOKEN = /(?<=[:[,]\s*)(?:-?\d[\d.e+-]*|"(?:[^"\\]|\\.)*")(?=\s*[,\]}])/g;

type Node = { readonly of: object; readonly key: string };

/** Bends of what the text says, and the file made whole again around it. */
const meant: fc.Arbitrary<Bend> = fc
  .tuple(place, fc.constantFrom('put', 'take', 'double', 'rename'), sore)
  .map(([share, how, what]) => (text: string) => {
    const file: unknown = JSON.parse(text);
    const all = nodesIn(file);
    const node = all[Math.floor(share * all.length)];
    if (node !== undefined) bend(node, how, what);
    return whole(file);
  });

/** Every member of every object and list, but not down to the last of the bombs. */
function nodesIn(value: unknown, depth = 0): readonly Node[] {
  if (typeof value !== 'object' || value === null || depth > 100) return [];
  return Object.entries(value).flatMap(([key, inner]) => [
    { of: value, key },
    ...nodesIn(inner, depth + 1),
  ]);
}

function bend({ of, key }: Node, how: string, what: string): void {
  const it = of as { [key: string]: unknown };
  const value = it[key];
  if (how === 'put') it[key] = JSON.parse(what);
  else if (Array.isArray(of))
    of.splice(Number(key), how === 'take' ? 1 : 0, structuredClone(value));
  else {
    delete it[key];
    const name = how === 'rename' ? '__proto__' : `${key}2`;
    if (how !== 'take')
      Object.defineProperty(of, name, { value, enumerable: true, configurable: true });
  }
}

/** With the checksum and the counts that a file saying this would have. */
function whole(file: unknown): string {
  const { checksum, ...body } = file as { readonly [key: string]: unknown };
  if (body.format !== 'fellmark-backup') return JSON.stringify(file);
  try {
    const told = { ...body, holds: holdsOf(body as unknown as Backup) };
    return JSON.stringify({ ...told, checksum: checksumOfBody(told) });
  } catch {
    return JSON.stringify({ ...body, checksum: checksumOfBody(body) });
  }
}

const bends = fc.oneof(
  { weight: 3, arbitrary: fc.array(textual, { minLength: 1, maxLength: 3 }) },
  { weight: 2, arbitrary: fc.array(meant, { minLength: 1, maxLength: 3 }) },
);
const bent = (text: string) => bends.map((all) => all.reduce((it, one) => one(it), text));

function hasWords(problems: readonly BackupProblem[]): void {
  expect(problems.length).toBeGreaterThan(0);
  for (const problem of problems) {
    const { wrong, right } = wordsForBackup(problem);
    expect(typeof problem.path).toBe('string');
    expect(wrong.length, problem.code).toBeGreaterThan(5);
    expect(typeof right).toBe('string');
  }
}

async function comesInWhole(backup: Backup): Promise<void> {
  const store = createMemoryStore();
  unreadIn(backup);
  await store.addContents(planImport(NOTHING, backup).additions);
  const { warps, records } = await store.contents();
  expect([warps.length, records.length]).toEqual([backup.warps.length, backup.records.length]);
  const events = (it: Backup['warps']) => it.reduce((sum, { log }) => sum + log.length, 0);
  expect(events(warps)).toBe(events(backup.warps));
}

const PROTOTYPE = Object.getOwnPropertyNames(Object.prototype).length;

function nothingLeaked(): void {
  expect(Object.getOwnPropertyNames(Object.prototype)).toHaveLength(PROTOTYPE);
  expect(({} as { readonly x?: unknown }).x).toBeUndefined();
}

describe('of ten thousand bent files', { timeout: 600_000 }, () => {
  it('5,000 backups are read whole or refused in words', async () => {
    let refused = 0;
    const law = fc.asyncProperty(bent(BACKUP), async (text) => {
      const read = readBackup(text);
      if (read.ok) await comesInWhole(read.value);
      else hasWords(read.problem);
      refused += read.ok ? 0 : 1;
      nothingLeaked();
    });
    await fc.assert(law, { numRuns: 5000 });
    // Neither all nor none: the bends reach what lies behind the checksum.
    expect(refused).toBeGreaterThan(2500);
    expect(refused).toBeLessThan(5000);
  });

  it('3,000 files of the rescue page give what can be read, or are refused in words', async () => {
    let read = 0;
    const law = fc.asyncProperty(bent(RESCUE), async (text) => {
      const rescued = readRescue(text);
      if (rescued.ok) {
        if (rescued.value.left.length > 0) hasWords(rescued.value.left);
        await comesInWhole(rescued.value.backup);
        const again = readBackup(writeBackup(rescued.value.backup));
        expect(again.ok, JSON.stringify(again)).toBe(true);
      } else hasWords(rescued.problem);
      read += rescued.ok ? 1 : 0;
      nothingLeaked();
    });
    await fc.assert(law, { numRuns: 3000 });
    expect(read).toBeGreaterThan(500);
  });

  it('2,000 plans are read or refused in words', () => {
    let refused = 0;
    const law = fc.property(bent(demoText('moss-and-chalk')), (text) => {
      const read = readPlanText(text);
      if (!read.ok) hasWords(read.problem);
      refused += read.ok ? 0 : 1;
      nothingLeaked();
    });
    fc.assert(law, { numRuns: 2000 });
    expect(refused).toBeGreaterThan(1000);
  });
});
