/**
 * Several windows of the app: one writes, the others follow. Whatever is done in one that follows
 * makes it the one that writes, and is done after it has read what the other wrote.
 */

import type { DurableStore } from '../../store/durable.ts';
import type { News } from '../../store/herald.ts';
import { storeState } from '../state.ts';

let store: DurableStore | null = null;
/** What other windows wrote and is not on this screen yet. */
let catchingUp: Promise<void> = Promise.resolve();
let behind = 0;
/** What was done before this window could write, in order. */
const waiting: (() => void)[] = [];

/** From now on `onNews` hears what other windows write, one thing after the other. */
export function followWindows(
  opened: DurableStore,
  onNews: (news: Exclude<News, { kind: 'state' }>) => Promise<void>,
): void {
  store = opened;
  storeState.value = opened.state();
  opened.listen((news) => {
    if (news.kind === 'state') {
      storeState.value = news.state;
      return;
    }
    behind += 1;
    catchingUp = catchingUp
      .then(() => onNews(news))
      .catch(() => undefined)
      .finally(() => {
        behind -= 1;
      });
  });
}

/** Makes this window the one that writes. */
export async function writeHere(): Promise<void> {
  await store?.takePen();
  await catchingUp;
}

/** Does the work at once where this window writes, else as soon as it does, in the order asked for. */
export function withPen(work: () => void): void {
  const isReady = storeState.peek().pen === 'here' && behind === 0;
  if (isReady && waiting.length === 0) {
    work();
    return;
  }
  waiting.push(work);
  if (waiting.length > 1) return;
  void writeHere().then(() => {
    for (const one of waiting.splice(0)) one();
  });
}

/** Takes note that what was lost is lost, and begins anew. */
export function startAnew(): void {
  store?.forgetLoss();
}
