import { describe, expect, it } from 'vitest';
import type { Contents } from '../../../../src/core/backup/contents.ts';
import { writeBackup } from '../../../../src/core/backup/file/backupFile.ts';
import { readBackup } from '../../../../src/core/backup/file/readBackup.ts';
import { readRescue } from '../../../../src/core/backup/file/readRescue.ts';
import { picksOf, stateOf, timeAt, warpOf } from '../states.ts';

const STATE = stateOf([warpOf('v', []), warpOf('w', picksOf('p', 40))], {
  records: [{ kind: 'yarn', id: 'y', changedAt: timeAt(5), body: { name: 'Moss' } }],
  settings: [{ name: 'hand', value: 'left' }],
});

interface Room {
  readonly name: string;
  readonly records: unknown[];
}

/** As the rescue page writes a database that holds this. */
function roomsOf({ warps, records, settings }: Contents): Room[] {
  const room = (name: string, values: readonly unknown[]): Room => ({
    name,
    records: values.map((value, key) => ({ key, value })),
  });
  return [
    room(
      'warps',
      warps.map(({ warp }) => warp),
    ),
    room(
      'revisions',
      warps.flatMap(({ warp, plans }) => plans.map((it) => ({ warp: warp.id, ...it }))),
    ),
    room(
      'events',
      warps.flatMap(({ log }) => log.map((event, seq) => ({ ...event, seq }))),
    ),
    room('records', records),
    room('settings', settings),
    room('ledger', [{ n: 3 }]),
  ];
}

function fileOf(rooms: readonly Room[]): string {
  const databases = [
    { name: 'other', rooms: [] },
    { name: 'fellmark', version: 2, rooms },
  ];
  return JSON.stringify({
    format: 'fellmark-rescue',
    version: 1,
    madeAt: timeAt(90),
    databases,
    files: [],
  });
}

const damaged = (name: string, change: (records: unknown[]) => void) => {
  const rooms = structuredClone(roomsOf(STATE));
  change(rooms.find((room) => room.name === name)?.records ?? []);
  return readRescue(fileOf(rooms));
};

describe('a file of the rescue page', () => {
  it('of a sound database gives everything that was in it', () => {
    const read = readRescue(fileOf(roomsOf(STATE)));
    expect(read).toEqual({
      ok: true,
      value: { backup: { madeAt: timeAt(90), app: 'rescue', ...STATE }, left: [] },
    });
  });

  it('with damaged events gives the others, in their order, each after the one it named', () => {
    const read = damaged('events', (records) => {
      records[3] = { key: 3, value: 'rubbish' };
      records[7] = { key: 7, value: { $: 'undefined' } };
      records[9] = null;
    });
    const backup = read.ok ? read.value.backup : null;
    expect(backup?.warps[1]?.log).toEqual(
      STATE.warps[1]?.log.filter((_, n) => ![3, 7, 9].includes(n)),
    );
    expect(backup?.warps[0]).toEqual(STATE.warps[0]);
  });

  it('tells what it leaves out, with its place', () => {
    const read = damaged('events', (records) => {
      records[3] = { key: 3, value: { ...STATE.warps[1]?.log[3], picks: 'two' } };
      records[4] = { key: 4, value: { ...STATE.warps[1]?.log[4], kind: 'flown' } };
    });
    expect(read).toMatchObject({
      value: {
        left: [
          { path: 'events of w[3].picks', code: 'wrong-type', got: 'two' },
          { path: 'events of w[4].kind', code: 'unknown-event', got: 'flown' },
        ],
      },
    });
  });

  it('whose record of a warp is damaged still gives its plans and its log', () => {
    const read = damaged('warps', (records) => {
      records[1] = { key: 1, value: 7 };
    });
    const warp = read.ok ? read.value.backup.warps.find((it) => it.warp.id === 'w') : null;
    expect(warp?.warp.name).toBe('Rescued');
    expect(warp?.log).toEqual(STATE.warps[1]?.log);
    expect(warp?.plans).toEqual(STATE.warps[1]?.plans);
  });

  it('in which something is there twice gives it once', () => {
    const read = damaged('events', (records) => {
      records.push(records[5]);
    });
    expect(read.ok ? read.value.backup.warps[1]?.log : null).toEqual(STATE.warps[1]?.log);
  });

  it('deeper than any record of ours gives the rest, and a backup of that can be read', () => {
    let deep: unknown = 1;
    for (let n = 0; n < 500; n++) deep = [deep];
    const read = damaged('settings', (records) => {
      records.push({ key: 'deep', value: { name: 'deep', value: deep } });
    });
    if (!read.ok) throw new Error(JSON.stringify(read.problem));
    expect(read.value.left.map(({ code }) => code)).toEqual(['too-deep']);
    expect(readBackup(writeBackup(read.value.backup)).ok).toBe(true);
  });

  it('with rooms of another kind gives what is left', () => {
    for (const name of ['warps', 'revisions', 'events', 'records', 'settings']) {
      const rooms = roomsOf(STATE).map((room) =>
        room.name === name ? ({ name, records: 'gone' } as unknown as Room) : room,
      );
      expect(readRescue(fileOf(rooms)).ok, name).toBe(true);
    }
  });
});

it.each([
  ['no JSON', 'x', ['not-json']],
  ['another file', '{"format": "fellmark-plan"}', ['wrong-format']],
  ['no database of ours', '{"format": "fellmark-rescue", "databases": []}', ['missing']],
  [
    'nothing of the right kind',
    '{"format": "fellmark-rescue", "databases": [null, 3, {"name": "fellmark", "rooms": 4}]}',
    ['missing'],
  ],
])('%s is refused', (_what, text, codes) => {
  const read = readRescue(text);
  expect(read.ok ? 'read' : read.problem.map(({ code }) => code)).toEqual(codes);
});
