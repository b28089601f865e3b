import { afterAll, beforeAll, expect, it } from 'vitest';
import { removeDir } from '../harness.ts';
import { killRounds, type Ready, type Round, readyToWeave } from './killing.ts';

const ROUNDS = Number(process.env.FELLMARK_KILLS ?? 40);
/** `FELLMARK_SEED` has the same moments again, as far as a machine can. */
const SEED = Number(process.env.FELLMARK_SEED ?? Date.now() % 1_000_000_007);
/** While one weaves, the other opens. */
const SIDE_BY_SIDE = 2;
/**
 * What a start after a kill may take at most, measured by an ordinary reload in the same minutes. A
 * reload finds the browser warm: on a quiet machine a cold one takes twice that and more by itself.
 */
const TIMES_A_RELOAD = 4;

let ready: Ready;

beforeAll(async () => {
  console.info(`kills: seed ${SEED}`);
  ready = await readyToWeave();
});

afterAll(() => removeDir(ready.profileDir));

it(`${ROUNDS} kills at random moments of weaving: every saved tap is there, none twice, at its place, without a question`, async () => {
  const each = Array.from({ length: SIDE_BY_SIDE }, (_, i) => ({
    ready,
    rounds: Math.ceil((ROUNDS - i) / SIDE_BY_SIDE),
    seed: SEED + i,
  }));
  const all = await Promise.all(each.map(killRounds));
  const wrongs = all.flatMap((rounds, i) =>
    rounds.flatMap(({ number, wrong }) =>
      wrong.map((it) => `seed ${SEED + i}, round ${number}: ${it}`),
    ),
  );
  expect(wrongs).toEqual([]);
  expect(all.flat()).toHaveLength(ROUNDS);
  expect(timesAReload(all.flat())).toBeLessThan(TIMES_A_RELOAD);
  // Otherwise nothing was put to the test.
  for (const rounds of all) expect(rounds.at(-1)?.acknowledged).toBeGreaterThan(rounds.length);
}, 3_600_000);

/**
 * How soon the call is back after a kill, as a share of what a reload takes: the middle of each. In
 * milliseconds it says first of all how busy the machine is, for one browser weaves while the other
 * opens.
 */
function timesAReload(rounds: readonly Round[]): number {
  const shown = middleOf(rounds.map(({ shownAfter }) => shownAfter));
  const reloaded = middleOf(rounds.flatMap(({ reloadedAfter }) => reloadedAfter ?? []));
  console.info(`kills: the call is back after ${shown} ms, after a reload ${reloaded} ms`);
  return shown / reloaded;
}

function middleOf(times: readonly number[]): number {
  const sorted = times.toSorted((a, b) => a - b);
  return Math.round(sorted[Math.floor(sorted.length / 2)] ?? Number.NaN);
}

/**
 * Takes the protection out: no second copy, and a commit said to be done before it is begun. The
 * real one is held up, as a slow disk would hold it up.
 */
const HASTY = `{
  delete StorageManager.prototype.getDirectory;
  const begin = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (rooms, mode, options) {
    const transaction = begin.call(this, rooms, mode, { ...options, durability: 'relaxed' });
    if (mode !== 'readwrite') return transaction;
    const listen = transaction.addEventListener.bind(transaction);
    transaction.addEventListener = (type, listener, ...rest) => {
      if (type === 'complete') setTimeout(() => listener.call(transaction, new Event('complete')));
      else listen(type, listener, ...rest);
    };
    // Told to commit, it would no longer be held up.
    transaction.commit = () => undefined;
    const room = transaction.objectStore(transaction.objectStoreNames[0]);
    const end = performance.now() + 400;
    const hold = () => {
      if (performance.now() < end) room.get('nothing').onsuccess = hold;
    };
    hold();
    return transaction;
  };
}`;

it('the same check catches an app that says saved before the commit', async () => {
  const isLost = ({ wrong }: Round) => wrong.some((it) => it.includes('are lost'));
  const rounds = await killRounds({
    ready,
    rounds: 8,
    seed: SEED,
    initScript: HASTY,
    isEnough: isLost,
  });
  expect(rounds.some(isLost)).toBe(true);
}, 600_000);
