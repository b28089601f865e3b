import { afterAll, expect, it } from 'vitest';
import { makeTempDir, removeDir } from '../harness.ts';
import { killRounds } from './killing.ts';

const ROUNDS = Number(process.env.FELLMARK_KILLS ?? 40);
const SEED = 20_251_125;

const dirs: string[] = [];
function profile(purpose: string): string {
  const dir = makeTempDir(purpose);
  dirs.push(dir);
  return dir;
}

afterAll(() => {
  for (const dir of dirs) removeDir(dir);
});

it(`${ROUNDS} kills at random moments of weaving: every saved tap is there, none twice, at its place, without a question`, async () => {
  const rounds = await killRounds({ profileDir: profile('kills'), rounds: ROUNDS, seed: SEED });
  expect(
    rounds.flatMap(({ number, wrong }) => wrong.map((it) => `round ${number}: ${it}`)),
  ).toEqual([]);
  // Otherwise nothing was put to the test.
  expect(rounds.at(-1)?.acknowledged).toBeGreaterThanOrEqual(ROUNDS);
}, 1_200_000);

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
  const lost = (wrong: readonly string[]) => wrong.some((it) => it.includes('are lost'));
  const rounds = await killRounds({
    profileDir: profile('hasty'),
    rounds: 8,
    seed: SEED,
    initScript: HASTY,
    isEnough: ({ wrong }) => lost(wrong),
  });
  expect(rounds.some(({ wrong }) => lost(wrong))).toBe(true);
}, 600_000);
