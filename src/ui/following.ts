/** What other windows wrote, brought to this screen. */
import { batch } from '@preact/signals';
import type { LogEvent } from '../core/bench/events.ts';
import { happened } from '../core/bench/happened.ts';
import { foldedOn } from '../core/bench/kept.ts';
import { needsRefold } from '../core/bench/undo.ts';
import type { News } from '../store/herald.ts';
import { loadSettings, theStore, unsavedOf } from './actions.ts';
import { refreshCards } from './cards.ts';
import { load, sessionOf } from './loading.ts';
import { wholeLog } from './resuming.ts';
import { followed, screen, session } from './state.ts';

export async function followNews(news: Exclude<News, { kind: 'state' }>): Promise<void> {
  await wholeLog();
  if (news.kind === 'wrote' && news.op.kind === 'events') takeIn(news.op.events);
  else await readAnew();
  if (screen.peek().kind === 'warps') await refreshCards();
}

/** Events another window saved, before those of this one that are not saved yet. */
function takeIn(events: readonly LogEvent[]): void {
  const at = session.peek();
  if (at === null) return;
  const isNew = ({ id, warp }: LogEvent) =>
    warp === at.warp.id && at.log.findLast((it) => it.id === id) === undefined;
  const fresh = events.filter(isNew);
  const own = unsavedOf(at.warp.id).length;
  at.log.splice(at.log.length - own, 0, ...fresh);
  const isNext = own === 0 && !fresh.some(needsRefold);
  const { kept, progress } = isNext
    ? { kept: at.kept, progress: fresh.reduce(happened, at.progress) }
    : foldedOn(at.base, at.log);
  session.value = { ...at, plan: progress.course.plan, kept, progress };
}

async function readAnew(): Promise<void> {
  await loadSettings();
  const at = session.peek();
  const loaded = at === null ? null : await load(theStore(), at.warp);
  batch(() => {
    followed.value += 1;
    if (loaded === null) {
      // The other window took the warp away.
      if (at !== null) screen.value = { kind: 'warps' };
      session.value = null;
      return;
    }
    const known = new Set(loaded.log.map(({ id }) => id));
    const own = unsavedOf(loaded.warp.id).filter(({ id }) => !known.has(id));
    const log = [...loaded.log, ...own];
    session.value = sessionOf(loaded.warp, loaded.base, log);
  });
}
