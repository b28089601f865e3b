/** The first phase of direct warping: loops through the slots, as steps to tick off. */
import { countsBy, mergeRuns, type Runs, totalOf } from '../../measure/runs.ts';
import type { Letter } from '../plan.ts';
import { ENDS_A_STEP, evenParts, roundAt } from './batches.ts';
import { type JoinRules, joinsOf, type Use } from './joins.ts';
import type { LoopsStep, SingleStep, SlotPlan, TieStep, YarnJoin } from './list.ts';
import type { MendAt } from './mend.ts';

export type LoopPhaseStep = LoopsStep | TieStep | SingleStep;

const LOOPS_A_STEP = ENDS_A_STEP / 2;
/** Turns of more loops than this are counted one after the other. */
const LONGEST_TURN = 2;

/** What goes through one slot at a time: a loop of one colour, of two, or a single end. */
type Item =
  | { readonly kind: 'loop'; readonly slot: number; readonly yarn: Letter }
  | {
      readonly kind: 'tie';
      readonly slot: number;
      readonly yarns: readonly [Letter, Letter];
      readonly firstEnd: number;
    }
  | { readonly kind: 'single'; readonly slot: number; readonly yarn: Letter };
type LoopItem = Extract<Item, { kind: 'loop' }>;
type TieItem = Extract<Item, { kind: 'tie' }>;
type SingleItem = Extract<Item, { kind: 'single' }>;

/** A step before it is known how its yarns come and go. */
interface Draft {
  readonly uses: readonly Use[];
  readonly finish: (joins: readonly YarnJoin[]) => LoopPhaseStep;
}

/** Steps in the order of the slots. */
export function loopSteps(
  slots: readonly SlotPlan[],
  rules: JoinRules,
  mendAt: MendAt,
): readonly LoopPhaseStep[] {
  const stretches = byFullness(slots).map((part) => part.flatMap(itemsIn));
  const drafts = stretches.flatMap((items) => draftsOf(items, mendAt));
  const joins = joinsOf(
    drafts.map((draft) => draft.uses),
    rules,
  );
  return drafts.map((draft, i) => draft.finish(joins[i] ?? []));
}

interface NumberedSlot {
  readonly slot: number;
  readonly plan: SlotPlan;
}

/** A slot that takes fewer loops than the others gets steps of its own, or they would be miscounted. */
function byFullness(slots: readonly SlotPlan[]): readonly (readonly NumberedSlot[])[] {
  const parts: NumberedSlot[][] = [];
  let size = -1;
  slots.forEach((plan, slot) => {
    const here = plan.stays.length + plan.moves.length;
    if (here !== size) parts.push([]);
    parts[parts.length - 1]?.push({ slot, plan });
    size = here;
  });
  return parts;
}

function itemsIn({ slot, plan: { loops, ties, single, firstEnd } }: NumberedSlot): readonly Item[] {
  return [
    ...loops.map((yarn): Item => ({ kind: 'loop', slot, yarn })),
    ...ties.map((yarns): Item => ({ kind: 'tie', slot, yarns, firstEnd })),
    ...(single === null ? [] : [{ kind: 'single', slot, yarn: single } as const]),
  ];
}

function draftsOf(items: readonly Item[], mendAt: MendAt): readonly Draft[] {
  const drafts: Draft[] = [];
  let loops: LoopItem[] = [];
  for (const item of items) {
    if (item.kind === 'loop') {
      loops.push(item);
      continue;
    }
    drafts.push(...stretch(loops), item.kind === 'tie' ? tied(item, mendAt) : alone(item));
    loops = [];
  }
  return [...drafts, ...stretch(loops)];
}

function tied({ slot, yarns, firstEnd }: TieItem, mendAt: MendAt): Draft {
  const at = { from: slot, to: slot + 1 };
  const uses = yarns.map((yarn): Use => ({ kind: 'tie', yarn, ...at }));
  const mend = mendAt(firstEnd);
  const finish = (joins: readonly YarnJoin[]): TieStep => {
    // The yarn that ends at the peg comes first, the one that begins there goes back.
    const [a, b] = yarns;
    const comes = joins.find((join) => join.ends.kind === 'at-peg')?.yarn;
    const inOrder = comes === b ? ([b, a] as const) : yarns;
    return { phase: 'loops', kind: 'tie', ...at, yarns: inOrder, mend, joins };
  };
  return { uses, finish };
}

function alone({ slot, yarn }: SingleItem): Draft {
  const at = { from: slot, to: slot + 1 };
  return {
    uses: [{ kind: 'single', yarn, ...at }],
    finish: (joins) => ({ phase: 'loops', kind: 'single', ...at, yarn, joins }),
  };
}

/** Steps of a stretch of whole loops: colours in turn where they take turns, else run by run. */
function stretch(items: readonly LoopItem[]): readonly Draft[] {
  const runs = mergeRuns(items.map(({ yarn }) => ({ of: yarn, count: 1 })));
  const drafts: Draft[] = [];
  let at = 0;
  const add = (round: Runs<Letter>, times: number) => {
    const loops = totalOf(round) * times;
    drafts.push(looped(items.slice(at, at + loops), round, times));
    at += loops;
  };
  for (let i = 0; i < runs.length; ) {
    const { round, times } = roundAt(runs, i, LONGEST_TURN);
    if (times === 1) {
      for (const run of round) {
        for (const count of evenParts(run.count, LOOPS_A_STEP)) add([{ of: run.of, count }], 1);
      }
    } else {
      const most = Math.floor(LOOPS_A_STEP / totalOf(round));
      for (const rounds of evenParts(times, most)) add(round, rounds);
    }
    i += times * round.length;
  }
  return drafts;
}

function looped(items: readonly LoopItem[], round: Runs<Letter>, times: number): Draft {
  const slotsOf = (yarn: Letter) => items.filter((it) => it.yarn === yarn).map(({ slot }) => slot);
  const span = (slots: readonly number[]) => ({
    from: slots[0] ?? 0,
    to: (slots[slots.length - 1] ?? 0) + 1,
  });
  const uses = [...countsBy(round).keys()].map(
    (yarn): Use => ({ kind: 'loops', yarn, ...span(slotsOf(yarn)) }),
  );
  const at = span(items.map(({ slot }) => slot));
  const what = { phase: 'loops', kind: 'loops', ...at, loops: items.length, round, times } as const;
  return { uses, finish: (joins) => ({ ...what, joins }) };
}
