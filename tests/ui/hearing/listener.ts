/** A weaver who cannot see the screen: knows only the words said and the signals sounded. */
import type { Signal } from '../../../src/core/bench/hearing/calls.ts';
import type { Letter, Plan, Side } from '../../../src/core/plan/plan.ts';

export interface Pick {
  readonly yarn: Letter;
  readonly shed: number;
  readonly from: Side;
}

export interface Heard {
  readonly signals: readonly Signal[];
  readonly words: readonly string[];
}

const TURN =
  /^(?:(\d+)(?: more)? of|By eye:) (.+), from the (left|right), (?:heddle (up|down)|(odd|even) shed)\.$/;
const SHEDS: Readonly<Record<string, number>> = { up: 0, down: 1, odd: 0, even: 1 };

export interface Listener {
  /** The pick the weaver would throw now; null once told that all is woven. */
  next: Pick | null;
  /** Picks left of the turn as counted on the fingers; null by eye. */
  left: number | null;
  /** What was told to do besides throwing, in order. */
  readonly dues: string[];
  /** What was warned of. */
  readonly ahead: string[];
  readonly cloth: Pick[];
}

export const newListener = (): Listener => ({
  next: null,
  left: null,
  dues: [],
  ahead: [],
  cloth: [],
});

/** Throws what the weaver has in mind, and has the following pick in mind. */
export function throwInMind(weaver: Listener): void {
  const { next, left } = weaver;
  if (next === null) return;
  weaver.cloth.push(next);
  weaver.next = {
    yarn: next.yarn,
    shed: 1 - next.shed,
    from: next.from === 'left' ? 'right' : 'left',
  };
  weaver.left = left === null ? null : left - 1;
}

/** What is said overrides what the weaver had in mind. */
export function hear(weaver: Listener, plan: Plan, { words }: Heard): void {
  for (const sentence of words) {
    if (sentence === 'Woven to the end.') {
      weaver.next = null;
      weaver.left = null;
    }
    if (sentence.startsWith('Due: ')) weaver.dues.push(sentence.slice('Due: '.length));
    if (/^In \d+ picks?[,: ]/.test(sentence)) weaver.ahead.push(sentence);
    const turn = TURN.exec(sentence);
    if (turn === null) continue;
    const [, count, name, from, rigid, shaft] = turn;
    const yarn = plan.yarns.find((it) => it.name === name)?.letter;
    const shed = SHEDS[rigid ?? shaft ?? ''];
    if (yarn === undefined || shed === undefined) throw new Error(`not understood: ${sentence}`);
    weaver.next = { yarn, shed, from: from === 'left' ? 'left' : 'right' };
    weaver.left = count === undefined ? null : Number(count);
  }
}
