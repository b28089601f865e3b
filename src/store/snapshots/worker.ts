/** The one place that reads and writes snapshots, away from the page: a tap never waits for it. */
import type { Answer, Ask } from './ask.ts';
import { openSnapshotKeeper, type SnapshotKeeper } from './keeper.ts';
import { readDatabase } from './readDatabase.ts';

async function perform(keeper: SnapshotKeeper, ask: Ask): Promise<Answer['value']> {
  switch (ask.kind) {
    case 'take': {
      const contents = await readDatabase(indexedDB);
      return contents === null ? null : keeper.take(contents, ask.order);
    }
    case 'list':
      return keeper.list();
    case 'read':
      return keeper.read(ask.id);
  }
}

async function answerTo(ask: Ask): Promise<Answer> {
  try {
    return { ok: true, value: await perform(await openSnapshotKeeper(), ask) };
  } catch (error) {
    return { ok: false, value: String(error) };
  }
}

addEventListener('message', (event: MessageEvent<Ask>) => {
  void answerTo(event.data).then((answer) => postMessage(answer));
});
