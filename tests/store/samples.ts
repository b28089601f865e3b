/** Warps, plans and taps to keep. */
import type { LogEvent } from '../../src/core/bench/events.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import type { RecordKind, StoredRecord, WarpRecord } from '../../src/store/store.ts';

const MADE_AT = '2025-03-01T09:00:00.000Z';

export function sampleWarp(id: string): WarpRecord {
  return { id, name: `Towels ${id}`, demo: false, madeAt: MADE_AT, wovenAt: null };
}

/** The store keeps plans and does not read them: a few fields stand for a whole one. */
export function samplePlan(name: string): Plan {
  const plan: unknown = { format: 'fellmark-plan', version: 1, name, pieces: [{ name: 'One' }] };
  return plan as Plan;
}

export function sampleRevision(warp: string, revision: number) {
  return { warp, revision, madeAt: MADE_AT, plan: samplePlan(`Plan ${revision}`) };
}

/** The store keeps bodies and does not read them. */
export function sampleRecord(kind: RecordKind, id: string): StoredRecord {
  return { kind, id, changedAt: MADE_AT, body: { name: `${kind} ${id}`, weighed: [{ grams: 1 }] } };
}

/** The nth tap of a warp, n seconds after nine. */
export function tap(warp: string, n: number): LogEvent {
  const at = new Date(Date.parse(MADE_AT) + n * 1000).toISOString();
  const after = n === 0 ? null : `${warp}-${n - 1}`;
  return { id: `${warp}-${n}`, warp, after, at, kind: 'thrown', picks: 1 };
}

export function taps(warp: string, count: number): LogEvent[] {
  return Array.from({ length: count }, (_, n) => tap(warp, n));
}
