/** What the journal has and the database has not, performed in a database that went on without it. */
import { describe, expect, test } from 'vitest';
import { type Contents, NOTHING } from '../../src/core/backup/contents.ts';
import { type DatabaseCopy, openDatabaseCopy } from '../../src/store/database.ts';
import { historyOf, type Replay, replay } from '../../src/store/history.ts';
import type { Entry, Ledger, Op } from '../../src/store/op.ts';
import { freshBrowser } from './browser.ts';
import { sampleRecord, sampleRevision, sampleWarp, tap, taps } from './samples.ts';

const planOf = (n: number, name = `Plan ${n}`) => {
  const { warp: _, ...plan } = sampleRevision('', n);
  return { ...plan, plan: { name } };
};

const HERE: Contents = {
  warps: [{ warp: { ...sampleWarp('a'), name: 'Here' }, plans: [planOf(0)], log: taps('a', 3) }],
  records: [sampleRecord('yarn', 'moss')],
  settings: [{ name: 'hand', value: 'left' }],
};

async function databaseWith(contents: Contents): Promise<DatabaseCopy> {
  const database = await openDatabaseCopy(freshBrowser().indexedDB, 'fellmark');
  await database.commit(
    { kind: 'more', contents },
    {
      by: 'w',
      store: 'here',
      flushed: 0,
      posted: 6,
      mayFollow: () => true,
      onTaken: () => undefined,
    },
  );
  return database;
}

/** The database stands at write 7; these are of the same store, before that. */
const earlier = (ops: readonly Op[]): readonly Entry[] =>
  ops.map((op, i) => ({ n: i + 1, by: 'v', after: i, op }));

function taken(
  database: DatabaseCopy,
  missing: readonly Entry[],
  change: Partial<Replay> = {},
): Promise<Ledger> {
  const place = { n: 8, by: 'w' };
  const it = { missing, origin: 'here', store: 'here', place, flushed: 7, ...change };
  return database.repair((tx) => replay(tx, it));
}

describe('a write of another history', () => {
  test('takes nothing away', async () => {
    const database = await databaseWith(HERE);
    const ledger = await taken(
      database,
      earlier([
        { kind: 'noWarp', id: 'a' },
        { kind: 'noRecord', of: 'yarn', id: 'moss' },
        { kind: 'all', contents: NOTHING },
      ]),
    );
    expect(await database.contents()).toEqual(HERE);
    expect(ledger).toEqual({ store: 'here', n: 8, by: 'w', flushed: 7, events: 3, warps: 1 });
    expect(await database.ledger()).toEqual(ledger);
  });

  test.each(['more', 'all'] as const)(
    'of everything at once (%s) writes over nothing, and adds what is not here',
    async (kind) => {
      const there: Contents = {
        warps: [
          {
            warp: { ...sampleWarp('a'), name: 'There' },
            plans: [planOf(0, 'other'), planOf(1)],
            log: taps('a', 4),
          },
          { warp: sampleWarp('b'), plans: [], log: [] },
        ],
        records: [{ ...sampleRecord('yarn', 'moss'), body: 'other' }, sampleRecord('draft', 'd')],
        settings: [
          { name: 'hand', value: 'right' },
          { name: 'theme', value: 'dark' },
        ],
      };
      const database = await databaseWith(HERE);
      await taken(database, earlier([{ kind, contents: there }]));
      const [first] = HERE.warps;
      expect(await database.contents()).toEqual({
        warps: [
          {
            warp: { ...first?.warp, wovenAt: tap('a', 3).at },
            plans: [planOf(0), planOf(1)],
            log: taps('a', 4),
          },
          { warp: sampleWarp('b'), plans: [], log: [] },
        ],
        records: [sampleRecord('draft', 'd'), ...HERE.records],
        settings: [...HERE.settings, { name: 'theme', value: 'dark' }],
      });
    },
  );

  test('of single things writes over nothing, and adds what is not here', async () => {
    const database = await databaseWith(HERE);
    await taken(
      database,
      earlier([
        { kind: 'setting', name: 'hand', value: 'right' },
        { kind: 'setting', name: 'theme', value: 'dark' },
        { kind: 'record', record: { ...sampleRecord('yarn', 'moss'), body: 'other' } },
        { kind: 'record', record: sampleRecord('draft', 'd') },
        { kind: 'warp', warp: { ...sampleWarp('a'), name: 'There' }, plan: null },
        { kind: 'revision', revision: sampleRevision('nowhere', 0) },
        { kind: 'events', events: [tap('nowhere', 0)] },
      ]),
    );
    expect(await database.contents()).toEqual({
      warps: HERE.warps,
      records: [sampleRecord('draft', 'd'), ...HERE.records],
      settings: [...HERE.settings, { name: 'theme', value: 'dark' }],
    });
  });

  test('made after everything here does what it says', async () => {
    const database = await databaseWith(HERE);
    const op: Op = { kind: 'noWarp', id: 'a' };
    await taken(database, [{ n: 8, by: 'v', after: 7, op }]);
    expect((await database.contents()).warps).toEqual([]);
    const other = await databaseWith(HERE);
    await taken(other, [{ n: 8, by: 'v', after: 7, op }], { origin: 'another store' });
    expect(await other.contents()).toEqual(HERE);
  });
});

test('taps whose warp was lost with its line come back, under a warp without a plan', async () => {
  const database = await openDatabaseCopy(freshBrowser().indexedDB, 'fellmark');
  await taken(database, earlier([{ kind: 'events', events: taps('a', 3) }]));
  const [first, , last] = taps('a', 3);
  expect(await database.contents()).toEqual({
    ...NOTHING,
    warps: [
      {
        warp: { id: 'a', name: 'Recovered', demo: false, madeAt: first?.at, wovenAt: last?.at },
        plans: [],
        log: taps('a', 3),
      },
    ],
  });
});

describe('a database told as a history', () => {
  test('leads to the same again, also where plans and logs have lost their warp', async () => {
    const database = await databaseWith(HERE);
    await database.repair((tx) => tx.objectStore('revisions').put(sampleRevision('lost', 0)));
    const ops = await database.survey(historyOf);
    const again = await openDatabaseCopy(freshBrowser().indexedDB, 'fellmark');
    await taken(again, earlier(ops));
    expect(await again.contents()).toEqual(await database.contents());
  });
});
