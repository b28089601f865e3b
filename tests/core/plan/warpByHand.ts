/**
 * A weaver who does what the list says and nothing else: loops into slots, ends exchanged, ends put
 * into holes. Knows no warp order; throws where a step cannot be done as it is told.
 */
import type { Letter } from '../../../src/core/plan/plan.ts';
import type { WarpingList, WarpingStep } from '../../../src/core/plan/warping/list.ts';

interface Opening {
  readonly slot: Letter[];
  hole: Letter[];
  done: boolean;
}

export interface Heddle {
  readonly openings: readonly Opening[];
  /** Every end with the opening it lies in, from left to right. */
  readonly ends: readonly { readonly yarn: Letter; readonly in: 'slot' | 'hole' }[];
}

/** `each`: ends a dent. */
export function warpByHand(list: WarpingList, each: number): Heddle {
  const openings: Opening[] = [];
  for (const step of list.steps) follow(openings, step, each);
  const ends = openings.flatMap(({ slot, hole }) => {
    const inSlot = slot.map((yarn) => ({ yarn, in: 'slot' as const }));
    const inHole = hole.map((yarn) => ({ yarn, in: 'hole' as const }));
    return list.holeSide === 'right' ? [...inSlot, ...inHole] : [...inHole, ...inSlot];
  });
  const forgotten = openings.findIndex((opening) => !opening.done);
  if (forgotten >= 0) throw new Error(`slot ${forgotten} was never threaded`);
  return { openings, ends };
}

function follow(openings: Opening[], step: WarpingStep, each: number): void {
  switch (step.kind) {
    case 'loops':
      pull(openings, step, each, roundsOf(step));
      return;
    case 'tie':
      pull(openings, step, each, [[...step.yarns]]);
      return;
    case 'single':
      pull(openings, step, each, [[step.yarn]]);
      return;
    case 'move': {
      const yarns = step.runs.flatMap((run) => Array<Letter>(run.count).fill(run.of));
      if (yarns.length !== step.to - step.from)
        throw new Error(`${step.id}: not one colour a slot`);
      yarns.forEach((yarn, i) => {
        thread(openings, step.from + i, Array(each).fill(yarn), Array(each).fill(yarn));
      });
      return;
    }
    case 'choose':
      for (let k = step.from; k < step.to; k++) thread(openings, k, step.stays, step.moves);
      return;
    case 'swap':
      for (let k = step.from; k < step.to; k += 2) {
        give(openings, k, k + 1, step.gives);
        give(openings, k + 1, k, step.takes);
        thread(openings, k, step.first.stays, step.first.moves);
        thread(openings, k + 1, step.second.stays, step.second.moves);
      }
      return;
    case 'setup':
    case 'wind':
    case 'floating':
    case 'thread':
      return;
  }
}

function roundsOf(step: Extract<WarpingStep, { kind: 'loops' }>): readonly (readonly Letter[])[] {
  const round = step.round.flatMap((run) => Array<Letter[]>(run.count).fill([run.of, run.of]));
  const loops = Array(step.times).fill(round).flat() as Letter[][];
  if (loops.length !== step.loops) throw new Error(`${step.id}: ${loops.length} loops`);
  return loops;
}

/** Loop after loop from the step's first slot on; a slot is full with a loop for every end a dent. */
function pull(
  openings: Opening[],
  step: { readonly id: string; readonly from: number; readonly to: number },
  each: number,
  loops: readonly (readonly Letter[])[],
): void {
  let at = step.from;
  if (at < openings.length - 1) throw new Error(`${step.id}: goes back to slot ${at}`);
  for (const loop of loops) {
    if ((openings[at]?.slot.length ?? 0) + loop.length > 2 * each) at++;
    if (at > openings.length) throw new Error(`${step.id}: skips a slot before ${at}`);
    if (at === openings.length) openings.push({ slot: [], hole: [], done: false });
    openings[at]?.slot.push(...loop);
  }
  if (at + 1 !== step.to) throw new Error(`${step.id}: ended in slot ${at}, told ${step.to - 1}`);
}

function give(openings: Opening[], from: number, to: number, yarn: Letter): void {
  const giver = openings[from]?.slot ?? [];
  const end = giver.indexOf(yarn);
  if (end < 0) throw new Error(`slot ${from} has no ${yarn} to give`);
  giver.splice(end, 1);
  openings[to]?.slot.push(yarn);
}

function thread(
  openings: Opening[],
  k: number,
  stays: readonly Letter[],
  moves: readonly Letter[],
): void {
  const opening = openings[k];
  if (opening === undefined || opening.done) throw new Error(`slot ${k} is not there, or done`);
  const wanted = [...stays, ...moves];
  if ([...opening.slot].sort().join() !== [...wanted].sort().join()) {
    throw new Error(`slot ${k} holds ${opening.slot.join()}, the list wants ${wanted.join()}`);
  }
  opening.slot.splice(0, opening.slot.length, ...stays);
  opening.hole = [...moves];
  opening.done = true;
}
