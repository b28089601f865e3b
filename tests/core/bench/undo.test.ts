import { describe, expect, it } from 'vitest';
import type { Happening, LogEvent } from '../../../src/core/bench/events.ts';
import {
  countedEvents,
  type Place,
  placeOf,
  redoTarget,
  undoTarget,
} from '../../../src/core/bench/undo.ts';
import { logged, thrown } from '../../core/bench/logs.ts';

const note: Happening = { kind: 'noted', text: 'the edge pulls in' };
const read: Happening = { kind: 'clothRead', reading: 'a', piece: 0, state: 'off', lengths: [600] };
const at = (place: Place, log: readonly LogEvent[]) => (event: LogEvent) =>
  placeOf(event, log) === place;

describe('undo in its place', () => {
  it('at the bench passes over a note, and in the journal over a pick', () => {
    const log = logged([thrown(1), note, thrown(1), note]);
    expect(undoTarget(log, at('weaving', log))).toBe('e2');
    expect(undoTarget(log, at('journal', log))).toBe('e3');
    expect(undoTarget(log)).toBe('e3');
  });

  it('takes a struck reading for an event of where it was read', () => {
    const strike: Happening = { kind: 'readingStruck', reading: 'a' };
    const fell: Happening = {
      kind: 'measured',
      reading: 'a',
      loomLength: 100,
      from: { kind: 'start' },
      tension: 'tight',
    };
    expect(placeOf(strike, logged([read, strike]))).toBe('measuring');
    expect(placeOf(strike, logged([fell, strike]))).toBe('weaving');
  });

  it('gives back only what was undone there', () => {
    const log = logged([thrown(1), note, { kind: 'undone', event: 'e1' }]);
    expect(redoTarget(log, at('weaving', log))).toBeNull();
    expect(redoTarget(log, at('journal', log))).toBe('e1');
  });
});

describe('the events that count', () => {
  it('are those not undone, or redone, each once', () => {
    const log = logged([
      thrown(1),
      thrown(2),
      { kind: 'undone', event: 'e0' },
      { kind: 'undone', event: 'e1' },
      { kind: 'redone', event: 'e1' },
    ]);
    const counted = countedEvents([...log, ...log]).map((it) => it.id);
    expect(counted).toEqual(['e1', 'e2', 'e3', 'e4']);
  });
});
