import { IDBFactory as FakeFactory } from 'fake-indexeddb';
import { describe, expect, test } from 'vitest';
import { mendRooms } from '../../src/store/mendRooms.ts';
import { DATABASE_NAME, DATABASE_VERSION, ROOMS, type RoomName } from '../../src/store/schema.ts';
import { getRaw, openRaw, putRaw } from './raw.ts';
import { samplePlan, sampleRevision, sampleWarp, taps } from './samples.ts';
import {
  closeWindow,
  everythingIn,
  freshWorld,
  journalOn,
  openWindow,
  settled,
  type World,
} from './world.ts';

const TAPS = taps('a', 12);

async function wovenWorld(): Promise<World> {
  const world = freshWorld();
  const store = await openWindow(world);
  await store.addWarp(sampleWarp('a'), samplePlan('A'));
  await store.addRevision(sampleRevision('a', 1));
  await store.appendAll(TAPS);
  await store.setSetting('hand', 'left');
  await store.putRecord({ kind: 'yarn', id: 'y', changedAt: TAPS[0]?.at ?? '', body: { ply: 2 } });
  await closeWindow(world, store);
  return world;
}

/** The same database without some of its rooms, as no app of ours would leave it. */
async function without(world: World, gone: readonly string[]): Promise<IDBFactory> {
  const whole = await openRaw(world.indexedDB);
  const rooms = ROOMS.filter((room) => !gone.includes(room));
  const indexedDB = new FakeFactory();
  const broken = await openRaw(indexedDB, DATABASE_VERSION, (database) => {
    for (const room of rooms) {
      database.createObjectStore(room, {
        keyPath: whole.transaction(room).objectStore(room).keyPath as string | string[],
      });
    }
  });
  for (const room of rooms) await putRaw(broken, room, (await getRaw(whole, room)) as object[]);
  whole.close();
  broken.close();
  return indexedDB;
}

async function foundIn(world: World): Promise<unknown> {
  const store = await openWindow(world);
  await settled(store);
  expect(store.state()).toMatchObject({ copies: 'two', loss: null });
  const found = await everythingIn(store, ['a'], ['hand']);
  await closeWindow(world, store);
  return found;
}

const journalIn = ({ files }: World) => {
  if (files === null) throw new Error('got a world without files');
  return journalOn(files.open);
};

describe('a database without some of its rooms', () => {
  test.each<readonly [string, readonly RoomName[]]>([
    ...ROOMS.map((room) => [`without ${room}`, [room]] as const),
    ['without events and ledger', ['events', 'ledger']],
    ['without any', ROOMS],
  ])('%s: does not open; made anew, it has everything again', async (_what, gone) => {
    const world = await wovenWorld();
    const before = await foundIn(world);
    world.indexedDB = await without(world, gone);
    await expect(openWindow(world)).rejects.toMatchObject({ trouble: 'lost-connection' });
    expect(await mendRooms(world.indexedDB, DATABASE_NAME, journalIn(world))).toBe(true);
    expect(await foundIn(world)).toEqual(before);
  });

  test('keeps what the journal has not, where that is damaged', async () => {
    const world = await wovenWorld();
    const [first] = world.files?.files ?? [];
    first?.set(first.bytes().subarray(0, 700));
    world.indexedDB = await without(world, ['settings']);
    expect(await mendRooms(world.indexedDB, DATABASE_NAME, journalIn(world))).toBe(true);
    const store = await openWindow(world);
    await settled(store);
    expect(await store.eventsOf('a')).toEqual(TAPS);
    await closeWindow(world, store);
  });

  test('is left as it is where there is no journal', async () => {
    const world = await wovenWorld();
    world.indexedDB = await without(world, ['warps']);
    for (const file of world.files?.files ?? []) file.set(new Uint8Array());
    expect(await mendRooms(world.indexedDB, DATABASE_NAME, journalIn(world))).toBe(false);
    const broken = await openRaw(world.indexedDB);
    expect(await getRaw(broken, 'events')).toHaveLength(TAPS.length);
    broken.close();
  });

  test('lets go of the journal when that cannot be asked', async () => {
    let closed = 0;
    const never = journalOn(() => Promise.reject(new Error('no files')));
    const close = async () => {
      closed += 1;
    };
    const world = await wovenWorld();
    const mending = mendRooms(world.indexedDB, DATABASE_NAME, { ...never, close });
    await expect(mending).rejects.toThrow('no files');
    expect(closed).toBe(1);
  });
});

test.each([
  ['a sound database', DATABASE_VERSION],
  ['one of a newer version', DATABASE_VERSION + 1],
])('%s is not touched', async (_what, version) => {
  const world = await wovenWorld();
  (await openRaw(world.indexedDB, version, () => undefined)).close();
  expect(await mendRooms(world.indexedDB, DATABASE_NAME, journalIn(world))).toBe(false);
  const database = await openRaw(world.indexedDB);
  expect(database.version).toBe(version);
  expect(await getRaw(database, 'events')).toHaveLength(TAPS.length);
  database.close();
});
