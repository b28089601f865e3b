/** Bringing a copy of a long log in, against only uniting the ids of the two in a set. */
import type { Contents } from '../../../src/core/backup/contents.ts';
import { planImport } from '../../../src/core/backup/merge/planImport.ts';
import type { LogEvent } from '../../../src/core/bench/events.ts';
import type { Pair } from './pair.ts';

const EVENTS = 50_000;

export function woven(
  device: string,
  until: number,
  before: readonly LogEvent[],
): readonly LogEvent[] {
  const log = [...before];
  while (log.length < until) {
    const after = log.at(-1)?.id ?? null;
    // As long as the app's own ids.
    const id = `${device}${log.length}`.padStart(24, '0');
    log.push({ id, warp: 'w', after, at: '2026-03-01T09:00:00.000Z', kind: 'thrown', picks: 1 });
  }
  return log;
}

export function stateOf(log: readonly LogEvent[]): Contents {
  const warp = { id: 'w', name: 'W', demo: false, madeAt: '', wovenAt: null };
  return { warps: [{ warp, plans: [], log }], records: [], settings: [] };
}

function pairOf(what: string, common: number, here: number): Pair {
  return {
    what: `bring in a log of ${EVENTS.toLocaleString('en')} events, ${what}`,
    against: 'a `Set` of the ids of both',
    unit: 'ms',
    limits: [{ kind: 'ratio', most: 3 }],
    prepare: () => {
      const past = woven('c', common, []);
      const [ours, theirs] = [woven('m', here, past), woven('t', EVENTS, past)];
      const [into, from] = [stateOf(ours), stateOf(theirs)];
      return {
        ours: () => planImport(into, from).additions.warps[0]?.log.length,
        floor: () => new Set([...ours.map(({ id }) => id), ...theirs.map(({ id }) => id)]).size,
        times: 1,
      };
    },
  };
}

export const mergeBranch = pairOf('half of them in common', EVENTS / 2, EVENTS);
export const mergeApart = pairOf('none in common', 0, EVENTS);
export const mergeContinued = pairOf('nine tenths of them here', EVENTS * 0.9, EVENTS * 0.9);
