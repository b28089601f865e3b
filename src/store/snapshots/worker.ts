/** Takes one snapshot away from the page: with years of weaving in it, that can take a second. */
import type { SnapshotOrder } from './keeper.ts';
import { takeFromDisk } from './takeFromDisk.ts';
import type { Answer } from './takeSnapshot.ts';

async function answerTo(order: SnapshotOrder): Promise<Answer> {
  try {
    return { kind: 'taken', note: await takeFromDisk(order) };
  } catch (error) {
    return { kind: 'failed', why: String(error) };
  }
}

addEventListener('message', (event: MessageEvent<SnapshotOrder>) => {
  void answerTo(event.data).then((answer) => postMessage(answer));
});
