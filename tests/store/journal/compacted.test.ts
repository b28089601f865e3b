import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compacted, keptOf } from '../../../src/store/journal/compacted.ts';
import type { Entry, Op } from '../../../src/store/op.ts';
import { samplePlan, sampleRecord, sampleRevision, sampleWarp, tap } from '../samples.ts';

const setting = (name: string, value: unknown): Op => ({ kind: 'setting', name, value });
const warp = (id: string): Op => ({ kind: 'warp', warp: sampleWarp(id), plan: samplePlan(id) });
const thrown = (id: string, n: number): Op => ({ kind: 'events', events: [tap(id, n)] });
const record = (id: string): Op => ({ kind: 'record', record: sampleRecord('yarn', id) });
const noRecord = (id: string): Op => ({ kind: 'noRecord', of: 'yarn', id });
const noWarp = (id: string): Op => ({ kind: 'noWarp', id });

/** One after the other, from 1. */
const inTurn = (ops: readonly Op[]): readonly Entry[] =>
  ops.map((op, i) => ({ n: i + 1, by: 'w', after: i, op }));

const namesOf = (entries: readonly Entry[]) => entries.map(({ n, op }) => `${n} ${op.kind}`);

describe('what the database refused after it was written down', () => {
  const at = (n: number, after: number): Entry => ({ n, by: 'w', after, op: setting('a', n) });

  test.each([
    ['nothing refused', [at(1, 0), at(2, 1), at(3, 2)], [1, 2, 3]],
    ['the second', [at(1, 0), at(2, 1), at(3, 1)], [1, 3]],
    ['the second and the third', [at(1, 0), at(2, 1), at(3, 1), at(4, 1), at(5, 4)], [1, 4, 5]],
    ['not known yet: the last stands', [at(1, 0), at(2, 1)], [1, 2]],
    ['the first', [at(1, 0), at(2, 0)], [2]],
    // Lines written at once share their number.
    ['nothing, after lines of one number', [at(7, 7), at(7, 7), at(8, 7)], [7, 7, 8]],
  ])('%s', (_what, entries, numbers) => {
    expect(keptOf(entries).map(({ n }) => n)).toEqual(numbers);
  });
});

describe('what is written over or taken away is left out', () => {
  test.each([
    ['a setting set twice', [setting('a', 1), setting('b', 1), setting('a', 2)], [2, 3]],
    [
      'a record changed and taken away',
      [record('x'), record('y'), record('x'), noRecord('x')],
      [2, 4],
    ],
    ['a record put back', [record('x'), noRecord('x'), record('x')], [3]],
    ['a warp with its log', [warp('a'), thrown('a', 0), thrown('b', 0), noWarp('a')], [3, 4]],
    [
      'a warp brought back',
      [warp('a'), thrown('a', 0), noWarp('a'), warp('a'), thrown('a', 1)],
      [3, 4, 5],
    ],
    ['never an event', [warp('a'), thrown('a', 0), thrown('a', 1), thrown('a', 0)], [1, 2, 3, 4]],
  ])('%s', (_what, ops, numbers) => {
    expect(compacted(inTurn(ops)).map(({ n }) => n)).toEqual(numbers);
  });

  test('of events of two warps written at once, those of the one that stays are kept', () => {
    const both: Op = { kind: 'events', events: [tap('a', 0), tap('b', 0), tap('a', 1)] };
    const [kept] = compacted(inTurn([both, noWarp('a')]));
    expect(kept?.op).toEqual({ kind: 'events', events: [tap('b', 0)] });
  });

  test('what was compacted once stays as it is', () => {
    fc.assert(
      fc.property(fc.array(anyOp()), (ops) => {
        const once = compacted(inTurn(ops));
        expect(namesOf(compacted(once))).toEqual(namesOf(once));
      }),
    );
  });

  test('it leads to the same state, from nothing and from any state on the way', () => {
    fc.assert(
      fc.property(fc.array(anyOp()), fc.nat(), (ops, from) => {
        const way = ops.slice(0, from % (ops.length + 1));
        expect(stateAfter([...way, ...compacted(inTurn(ops)).map(({ op }) => op)])).toEqual(
          stateAfter(ops),
        );
      }),
    );
  });
});

function anyOp(): fc.Arbitrary<Op> {
  const id = fc.constantFrom('a', 'b');
  const n = fc.nat({ max: 3 });
  return fc.oneof(
    fc.tuple(id, n).map(([name, value]) => setting(name, value)),
    id.map(warp),
    fc
      .tuple(id, n)
      .map(([it, number]): Op => ({ kind: 'revision', revision: sampleRevision(it, number) })),
    fc
      .array(fc.tuple(id, n), { minLength: 1, maxLength: 4 })
      .map((all): Op => ({ kind: 'events', events: all.map(([it, number]) => tap(it, number)) })),
    id.map(record),
    id.map(noRecord),
    id.map(noWarp),
    fc.tuple(id, n, fc.boolean()).map(
      ([it, number, isAll]): Op => ({
        kind: isAll ? 'all' : 'more',
        contents: {
          warps: [
            {
              warp: { ...sampleWarp(it), name: `copy ${number}` },
              plans: [{ revision: number, madeAt: 'then', plan: null }],
              log: [tap(it, number)],
            },
          ],
          records: [{ ...sampleRecord('yarn', it), body: number }],
          settings: [{ name: it, value: number }],
        },
      }),
    ),
  );
}

/** What is there in the end, as plainly as can be: nothing is refused, what is there stays. */
function stateAfter(ops: readonly Op[]): ReadonlyMap<string, unknown> {
  const state = new Map<string, unknown>();
  const keep = (key: string, value: unknown) => {
    if (!state.has(key)) state.set(key, value);
  };
  for (const op of ops) {
    if (op.kind === 'setting') state.set(`setting ${op.name}`, op.value);
    if (op.kind === 'record') state.set(`record ${op.record.id}`, op.record);
    if (op.kind === 'noRecord') state.delete(`record ${op.id}`);
    if (op.kind === 'warp') keep(`${op.warp.id}/warp`, op.warp);
    if (op.kind === 'revision') keep(`${op.revision.warp}/${op.revision.revision}`, op.revision);
    if (op.kind === 'events') for (const it of op.events) keep(`${it.warp}/event ${it.id}`, it);
    if (op.kind === 'all') state.clear();
    if (op.kind === 'all' || op.kind === 'more') {
      for (const { warp: head, plans, log } of op.contents.warps) {
        state.set(`${head.id}/warp`, head);
        for (const plan of plans) keep(`${head.id}/${plan.revision}`, plan);
        for (const it of log) keep(`${head.id}/event ${it.id}`, it);
      }
      for (const it of op.contents.records) state.set(`record ${it.id}`, it);
      for (const it of op.contents.settings) state.set(`setting ${it.name}`, it.value);
    }
    if (op.kind === 'noWarp') {
      for (const key of [...state.keys()]) if (key.startsWith(`${op.id}/`)) state.delete(key);
    }
  }
  return state;
}
