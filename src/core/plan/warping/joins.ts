/**
 * How yarns come and go while loops are made. The cones stand behind the loom; a colour that is not
 * at work waits at the back beam. If it is wanted again within a few slots it is dropped there and
 * carried along the beam; else it is cut and tied to the beam, and tied on anew later.
 */
import type { Mm } from '../../measure/length.ts';
import type { Letter } from '../plan.ts';
import type { YarnJoin } from './list.ts';

/**
 * The longest way a resting yarn is carried along the back beam. Beyond it, cut and tie: long floats
 * there catch on the sticks when the warp is wound on. Common practice, no source.
 */
export const CARRY_ON_BEAM: Mm = 50;

export interface JoinRules {
  /** From slot to slot. */
  readonly slotWidth: Mm;
  readonly carry: Mm;
}

/** A yarn at work in one step, from its first slot there to its last. */
export interface Use {
  readonly kind: 'loops' | 'tie' | 'single';
  readonly yarn: Letter;
  readonly from: number;
  readonly to: number;
}

/** The joins of every step, from the yarns at work in each. */
export function joinsOf(
  steps: readonly (readonly Use[])[],
  rules: JoinRules,
): readonly (readonly YarnJoin[])[] {
  const pegs = steps.map((uses, i) => pegsOf(uses, steps[i - 1] ?? [], steps[i + 1] ?? []));
  return steps.map((uses, i) => uses.map((use) => joinOf(steps, pegs, rules, i, use)));
}

/** Whether the yarn of each use begins or ends at the peg. */
type Peg = 'begins' | 'ends' | null;

/**
 * In a tie one yarn comes to the peg and ends there, the other begins there and goes back: the one
 * at work before comes, the one at work after goes. A single end begins at the peg where its yarn
 * goes on after it, else it ends there.
 */
function pegsOf(
  uses: readonly Use[],
  before: readonly Use[],
  after: readonly Use[],
): ReadonlyMap<Letter, Peg> {
  const at = (list: readonly Use[], yarn: Letter) => list.some((use) => use.yarn === yarn);
  const [first, second] = uses;
  if (first === undefined || first.kind === 'loops') return new Map();
  if (first.kind === 'single' || second === undefined) {
    const goesOn = at(after, first.yarn) && !at(before, first.yarn);
    return new Map<Letter, Peg>([[first.yarn, goesOn ? 'begins' : 'ends']]);
  }
  const secondComes =
    (at(before, second.yarn) && !at(before, first.yarn)) ||
    (at(after, first.yarn) && !at(after, second.yarn) && !at(before, first.yarn));
  return new Map<Letter, Peg>([
    [first.yarn, secondComes ? 'begins' : 'ends'],
    [second.yarn, secondComes ? 'ends' : 'begins'],
  ]);
}

function joinOf(
  steps: readonly (readonly Use[])[],
  pegs: readonly ReadonlyMap<Letter, Peg>[],
  rules: JoinRules,
  i: number,
  use: Use,
): YarnJoin {
  const peg = pegs[i]?.get(use.yarn) ?? null;
  const previous = neighbour(steps, i, use.yarn, -1);
  const next = neighbour(steps, i, use.yarn, 1);
  const here = { step: i, use };
  return {
    yarn: use.yarn,
    begins: peg === 'begins' ? { kind: 'at-peg' } : beginning(),
    ends: peg === 'ends' ? { kind: 'at-peg' } : ending(),
  };

  function beginning(): YarnJoin['begins'] {
    if (previous === null || pegs[previous.step]?.get(use.yarn) === 'ends')
      return { kind: 'tie-on' };
    const way = wayBetween(rules, previous, here);
    if (way === 'goes-on') return { kind: 'goes-on' };
    return way === 'cut' ? { kind: 'tie-on' } : { kind: 'pick-up', from: previous.use.to - 1 };
  }
  function ending(): YarnJoin['ends'] {
    if (next === null || pegs[next.step]?.get(use.yarn) === 'begins') return { kind: 'cut' };
    const way = wayBetween(rules, here, next);
    return way === 'carry' ? { kind: 'drop', until: next.use.from } : { kind: way };
  }
}

interface UseAt {
  readonly step: number;
  readonly use: Use;
}

function neighbour(
  steps: readonly (readonly Use[])[],
  from: number,
  yarn: Letter,
  by: 1 | -1,
): UseAt | null {
  for (let step = from + by; step >= 0 && step < steps.length; step += by) {
    const use = steps[step]?.find((it) => it.yarn === yarn);
    if (use !== undefined) return { step, use };
  }
  return null;
}

function wayBetween(
  { slotWidth, carry }: JoinRules,
  before: UseAt,
  after: UseAt,
): 'goes-on' | 'carry' | 'cut' {
  if (after.step === before.step + 1) return 'goes-on';
  const slots = after.use.from - (before.use.to - 1);
  return slots * slotWidth <= carry ? 'carry' : 'cut';
}
