/**
 * What is sounded and spoken after something happened at the bench, so that a weaver who looks away
 * weaves the same cloth.
 *
 * A weaver who is told a turn goes on by hand: same yarn, the other shed, the other side, one pick
 * fewer. So a turn is told when it begins, and whenever that expectation would be wrong.
 */
import type { Side } from '../../plan/plan.ts';
import { freeAtFell } from '../byEye/throwing.ts';
import type { Due } from '../dues.ts';
import { nextDue, type OpenDue, openDues } from '../openDues.ts';
import { type PickFacts, pickAt } from '../pickAt.ts';
import type { Progress } from '../progress.ts';

/** `pick`: one more is counted. `back`: picks were taken back. `coming`, `now`: a change. */
export const SIGNALS = ['pick', 'back', 'coming', 'now', 'due'] as const;
export type Signal = (typeof SIGNALS)[number];

export type Spoken =
  /** A piece begins. */
  | { readonly kind: 'piece'; readonly piece: number }
  /** So many picks of one yarn; `goesOn` in the middle of a stripe. */
  | {
      readonly kind: 'turn';
      readonly facts: PickFacts;
      readonly left: number;
      readonly goesOn: boolean;
    }
  /** Woven by eye: nobody knows how many. */
  | { readonly kind: 'byEye'; readonly facts: PickFacts }
  /** What the hands do with this pick besides throwing it; may come to no words. */
  | { readonly kind: 'hand'; readonly facts: PickFacts }
  /** In so many picks the yarn changes; null where the piece ends. */
  | { readonly kind: 'yarnAhead'; readonly picks: number; readonly yarn: number | null }
  | { readonly kind: 'dueAhead'; readonly picks: number; readonly due: Due }
  | { readonly kind: 'due'; readonly due: OpenDue }
  /** Every pick of the warp is woven. */
  | { readonly kind: 'woven' };

export interface Calls {
  readonly signals: readonly Signal[];
  /** In the order in which they are said. */
  readonly spoken: readonly Spoken[];
}

/** What the weaver knows at one moment. */
interface Standing {
  readonly facts: PickFacts | null;
  /** Picks left of the stripe, this one among them; null by eye and at the end. */
  readonly left: number | null;
  readonly dues: readonly OpenDue[];
}

function standingOf(progress: Progress): Standing {
  const { course, pick, cutOff } = progress;
  const facts = pickAt(course, pick);
  const isCounted = facts !== null && freeAtFell(course, pick) === null;
  const left = isCounted ? facts.stripe.picks - facts.stripe.done : null;
  return { facts, left, dues: cutOff ? [] : openDues(progress).filter((it) => !it.deferred) };
}

/**
 * What to sound and say when the bench has come from one state to another. `before` is null when the
 * weaver comes to the bench: then everything is told. `ahead` is in picks, 0 for no warning.
 */
export function callsBetween(before: Progress | null, after: Progress, ahead: number): Calls {
  if (before === after) return { signals: [], spoken: [] };
  const is = standingOf(after);
  const was = before === null ? null : standingOf(before);
  const threw = after.pick - (before?.pick ?? after.pick);
  const known = new Set(was?.dues.map(({ id }) => id));
  const fresh = is.dues.filter(({ id }) => !known.has(id));
  const turn = isAsExpected(was, is, threw) ? [] : turnCalls(was, is);
  const coming = threw === 1 ? aheadCalls(after, is, turn.length > 0, ahead) : [];
  const isNewPick = was === null || threw !== 0;
  return {
    signals: [
      ...pickSignal(was, threw, turn.length > 0, coming.length > 0),
      ...(fresh.length > 0 ? (['due'] as const) : []),
    ],
    spoken: [
      ...fresh.map((due) => ({ kind: 'due' as const, due })),
      ...turn,
      ...(is.facts !== null && (isNewPick || turn.length > 0) ? handCalls(is.facts) : []),
      ...coming,
    ],
  };
}

/** All of it again: what is due, the turn, what the hands do. */
export const wholeCall = (progress: Progress): readonly Spoken[] =>
  callsBetween(null, progress, 0).spoken;

function isAsExpected(was: Standing | null, is: Standing, threw: number): boolean {
  if (was === null || threw < 0 || threw > 1) return false;
  if (was.facts === null || is.facts === null) return was.facts === is.facts;
  const by = (one: number) => (threw === 1 ? 1 - one : one);
  return (
    was.facts.piece.index === is.facts.piece.index &&
    was.facts.yarn === is.facts.yarn &&
    is.facts.shed === by(was.facts.shed) &&
    is.facts.from === (threw === 1 ? otherSide(was.facts.from) : was.facts.from) &&
    is.left === (was.left === null ? null : was.left - threw) &&
    is.left !== 0
  );
}

const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

function turnCalls(was: Standing | null, { facts, left }: Standing): readonly Spoken[] {
  if (facts === null) return [{ kind: 'woven' }];
  const isOfOtherPiece = was !== null && was.facts?.piece.index !== facts.piece.index;
  const piece = facts.ofPiece === 0 || isOfOtherPiece;
  return [
    ...(piece ? [{ kind: 'piece' as const, piece: facts.piece.index }] : []),
    left === null
      ? { kind: 'byEye', facts }
      : { kind: 'turn', facts, left, goesOn: facts.stripe.done > 0 },
  ];
}

function handCalls(facts: PickFacts): readonly Spoken[] {
  const { coming, leaving, catches } = facts;
  return coming === null && leaving === null && catches.length === 0
    ? []
    : [{ kind: 'hand', facts }];
}

/** Told once, at exactly the pick asked for: before it would be too soon, after it it is known. */
function aheadCalls(
  after: Progress,
  { facts, left }: Standing,
  isTold: boolean,
  ahead: number,
): readonly Spoken[] {
  if (facts === null || ahead === 0) return [];
  const due = nextDue(after);
  const yarn: readonly Spoken[] =
    left === ahead && !isTold
      ? [{ kind: 'yarnAhead', picks: left, yarn: facts.stripe.nextYarn }]
      : [];
  const isDueAhead = due !== null && due.at - after.pick === ahead;
  return [...yarn, ...(isDueAhead ? [{ kind: 'dueAhead' as const, picks: ahead, due }] : [])];
}

function pickSignal(
  was: Standing | null,
  threw: number,
  isTold: boolean,
  isComing: boolean,
): readonly Signal[] {
  if (was === null) return [];
  if (threw < 0) return ['back'];
  if (isTold) return ['now'];
  if (threw === 0) return [];
  return [isComing ? 'coming' : 'pick'];
}
