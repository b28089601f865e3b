/** How fast this weaver throws, read off the times of the log. */

import { medianOf } from '../../measure/median.ts';
import type { LogEvent } from '../events.ts';
import { cancelledBy } from '../undo.ts';
import type { Pace } from './left.ts';

/** A longer pause parts two sittings. */
const SITTING_MS = 5 * 60_000;
/** A gap of so many times the middle one is no throwing: a bobbin, a dropped end, the telephone. */
const PAUSE = 4;
/** Fewer gaps say nothing of a pace. */
const LEAST = 20;
/** A pace is what it was lately: so many gaps back. */
const MOST = 600;

interface Gap {
  readonly picks: number;
  readonly ms: number;
}

/**
 * Picks a minute while throwing; null while too little was thrown. A gap is the time from one throw
 * to the next with nothing else between them. Gaps are cut off at four times the middle one, and the
 * mean is taken of the rest, so that changing shuttles counts and breaks do not.
 */
export function pace(log: readonly LogEvent[]): Pace | null {
  const gaps = gapsOf(log).slice(-MOST);
  if (gaps.length < LEAST) return null;
  const middle = medianOf(gaps.map((gap) => gap.ms / gap.picks));
  const thrown = gaps.filter((gap) => gap.ms <= PAUSE * middle * gap.picks);
  const picks = thrown.reduce((sum, gap) => sum + gap.picks, 0);
  const minutes = thrown.reduce((sum, gap) => sum + gap.ms, 0) / 60_000;
  return { picksPerMinute: picks / minutes, picks };
}

function gapsOf(log: readonly LogEvent[]): readonly Gap[] {
  const cancelled = cancelledBy(log);
  return log.flatMap((event, n) => {
    const before = log[n - 1];
    if (event.kind !== 'thrown' || before?.kind !== 'thrown') return [];
    if (cancelled.has(event.id) || cancelled.has(before.id)) return [];
    const ms = Date.parse(event.at) - Date.parse(before.at);
    return ms > 0 && ms <= SITTING_MS && event.picks > 0 ? [{ picks: event.picks, ms }] : [];
  });
}
