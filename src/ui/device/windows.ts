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
  if (isReady() && waiting.length === 0) {
    work();
    return;
  }
  waiting.push(work);
  if (waiting.length > 1) return;
  void ready().then(() => {
    for (const one of waiting.splice(0)) one();
  });
}

/** Windows that ask in turn could go on for ever: after so many times what waits is done all the same. */
const MOST_TURNS = 20;

/** This window writes and has read what the others wrote: another may ask while it reads. */
async function ready(): Promise<void> {
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    await writeHere();
    if (isReady()) return;
  }
}

const isReady = (): boolean => storeState.peek().pen === 'here' && behind === 0;

/** Takes note that what was lost is lost, and begins anew. */
export function startAnew(): void {
  store?.forgetLoss();
}
