import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NOTHING } from '../../../src/core/backup/contents.ts';
import { readRescueFile } from '../../../src/store/journal/rescued.ts';
import { DATABASE_NAME, ROOM_NAMES } from '../../../src/store/schema.ts';
import { getRaw, openRaw } from '../raw.ts';
import { samplePlan, sampleRevision, sampleWarp, tap, taps } from '../samples.ts';
import { closeWindow, freshWorld, openWindow, type World } from '../world.ts';

const TAPS = taps('a', 12);
const AT = '2026-11-27T14:30:00.000Z';

async function woven(): Promise<World> {
  const world = freshWorld();
  const store = await openWindow(world);
  await store.addWarp(sampleWarp('a'), samplePlan('A'));
  await store.addRevision(sampleRevision('a', 1));
  await store.appendAll(TAPS);
  await store.addWarp(sampleWarp('gone'), samplePlan('G'));
  await store.removeWarp('gone');
  await store.setSetting('hand', 'left');
  await store.putRecord({ kind: 'yarn', id: 'y', changedAt: AT, body: { ply: 2 } });
  await store.putRecord({ kind: 'yarn', id: 'z', changedAt: AT, body: {} });
  await store.removeRecord('yarn', 'z');
  await store.addContents({ ...NOTHING, settings: [{ name: 'more', value: 1 }] });
  await closeWindow(world, store);
  return world;
}

interface FileOf {
  readonly databases: readonly unknown[];
  readonly files: unknown;
}

async function roomsOf({
  indexedDB,
}: World): Promise<readonly { name: string; records: unknown[] }[]> {
  const database = await openRaw(indexedDB);
  const rooms = ROOM_NAMES.map(async (name) => {
    const records = await getRaw(database, name);
    return { name, records: records.map((value) => ({ value })) };
  });
  const all = await Promise.all(rooms);
  database.close();
  return all;
}

const filesOf = ({ files }: World, change = (bytes: Uint8Array): Uint8Array => bytes) =>
  (files?.files ?? []).map((file, n) => ({
    path: `fellmark/journal-${n}.txt`,
    base64: Buffer.from(change(file.bytes())).toString('base64'),
  }));

/** As the rescue page writes it. */
const textOf = ({ databases, files }: FileOf): string =>
  JSON.stringify({ format: 'fellmark-rescue', version: 1, madeAt: AT, databases, files });

const databaseWith = (rooms: readonly object[]) => ({ name: DATABASE_NAME, version: 3, rooms });

async function read(file: FileOf) {
  const result = await readRescueFile(textOf(file));
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
}

describe('a rescue file is read with the journal in it', () => {
  it('of which all is in the database: nothing comes twice', async () => {
    const world = await woven();
    const databases = [databaseWith(await roomsOf(world))];
    const [both, alone] = [
      await read({ databases, files: filesOf(world) }),
      await read({ databases, files: [] }),
    ];
    expect(both).toEqual(alone);
    expect(both.backup.warps.map(({ warp, log }) => [warp.id, log.length])).toEqual([['a', 12]]);
  });

  it.each(ROOM_NAMES)('which has what the room of %s no longer holds', async (gone) => {
    const world = await woven();
    const rooms = await roomsOf(world);
    const whole = await read({ databases: [databaseWith(rooms)], files: [] });
    const left = rooms.filter(({ name }) => name !== gone);
    const { backup } = await read({ databases: [databaseWith(left)], files: filesOf(world) });
    expect(backup).toEqual(whole.backup);
  });

  it('which alone is enough', async () => {
    const world = await woven();
    const whole = await read({ databases: [databaseWith(await roomsOf(world))], files: [] });
    const error = { name: DATABASE_NAME, error: 'UnknownError' };
    for (const databases of [[], [error], [databaseWith([])]]) {
      const { backup } = await read({ databases, files: filesOf(world) });
      expect({ ...backup, app: '' }).toEqual({ ...whole.backup, app: '' });
    }
  });

  it('which was cut: what stands in it before comes, and the rest from the database', async () => {
    const world = await woven();
    const databases = [databaseWith(await roomsOf(world))];
    const whole = await read({ databases, files: [] });
    const files = filesOf(world, (bytes) => bytes.subarray(0, bytes.length >> 1));
    expect((await read({ databases, files })).backup).toEqual(whole.backup);
  });

  it('whose line of the warp is damaged: what was woven on it comes under a name of its own', async () => {
    const world = await woven();
    const files = filesOf(world, (bytes) => (bytes.length > 300 ? bytes.with(300, 7) : bytes));
    const { warps } = (await read({ databases: [], files })).backup;
    expect(warps.map(({ warp, log }) => [warp.name, log.length])).toEqual([['Recovered', 12]]);
  });

  it('written over as a whole: only what came after counts', async () => {
    const world = freshWorld();
    const store = await openWindow(world);
    await store.addWarp(sampleWarp('old'), samplePlan('O'));
    await store.replaceContents({
      ...NOTHING,
      warps: [{ warp: sampleWarp('a'), plans: [], log: [tap('a', 1)] }],
    });
    await closeWindow(world, store);
    const { warps } = (await read({ databases: [], files: filesOf(world) })).backup;
    expect(warps.map(({ warp }) => warp.id)).toEqual(['a']);
  });
});

describe('a rescue file without a journal that can be read', () => {
  it.each<[string, unknown]>([
    ['no files', undefined],
    ['files that are none', { path: 'fellmark/journal-0.txt' }],
    ['files of others', [{ path: 'deep/journal-0.txt', base64: 'AAAA' }, null, 7]],
    ['an empty one', [{ path: 'fellmark/journal-0.txt', base64: '' }]],
    ['one that is no base64', [{ path: 'fellmark/journal-0.txt', base64: '%%%' }]],
    ['one that could not be read', [{ path: 'fellmark/journal-0.txt', error: 'no' }]],
    ['rubbish', [{ path: 'fellmark/journal-0.txt', base64: btoa('x'.repeat(900)) }]],
  ])('%s: is what its database is', async (_what, files) => {
    const databases = [databaseWith(await roomsOf(await woven()))];
    const { backup } = await read({ databases, files });
    expect(backup.warps[0]?.log).toHaveLength(TAPS.length);
    const refused = await readRescueFile(textOf({ databases: [], files }));
    expect(refused).toMatchObject({ ok: false, problem: [{ path: 'databases', code: 'missing' }] });
  });

  it('and no rescue file at all: the problem is named', async () => {
    for (const text of ['', '{', '7', '{"format":"fellmark-plan"}']) {
      expect((await readRescueFile(text)).ok).toBe(false);
    }
  });
});

it('lines that make no sense, although their checksums hold, change nothing and break nothing', async () => {
  const { encodeLine } = await import('../../../src/store/journal/line.ts');
  const head = {
    journal: 1,
    data: 3,
    store: 's',
    generation: 1,
    n: 0,
    by: '',
    lines: 0,
    bytes: 256,
  };
  const kinds = [
    'warp',
    'revision',
    'events',
    'setting',
    'record',
    'noWarp',
    'noRecord',
    'more',
    'all',
  ];
  const op = fc.oneof(
    fc.jsonValue(),
    fc.record({
      kind: fc.constantFrom(...kinds),
      warp: fc.jsonValue(),
      events: fc.jsonValue(),
      revision: fc.jsonValue(),
      contents: fc.jsonValue(),
      record: fc.jsonValue(),
      id: fc.jsonValue(),
    }),
  );
  const databases = [databaseWith(await roomsOf(await woven()))];
  await fc.assert(
    fc.asyncProperty(fc.array(op, { maxLength: 6 }), async (ops) => {
      const lines = ops.map((it, n) => encodeLine({ n: n + 1, by: 'x', after: n, op: it }));
      const base64 = Buffer.concat([encodeLine(head, 256), ...lines]).toString('base64');
      const { backup } = await read({
        databases,
        files: [{ path: 'fellmark/journal-0.txt', base64 }],
      });
      expect(backup.warps.find(({ warp }) => warp.id === 'a')?.log).toHaveLength(TAPS.length);
    }),
    { numRuns: 300 },
  );
});
