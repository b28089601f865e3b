import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Happening } from '../../../src/core/bench/events.ts';
import { happened } from '../../../src/core/bench/happened.ts';
import { callsBetween, type Signal } from '../../../src/core/bench/hearing/calls.ts';
import { pickAt } from '../../../src/core/bench/pickAt.ts';
import { type Progress, startOf } from '../../../src/core/bench/progress.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { callWords } from '../../../src/ui/hearing/callWords.ts';
import { anyPlan, happening } from '../../core/bench/arbitraries.ts';
import { anyFreeLog } from '../../core/bench/byEye/freePlans.ts';
import { weave } from '../../core/bench/weaver.ts';
import {
  alternation,
  checked,
  demo,
  pieceOf,
  planOf,
  planWeaving,
  solid,
  yarns,
} from '../../core/plan/samples.ts';
import { type Heard, hear, type Listener, newListener, throwInMind } from './listener.ts';

const AHEAD = 4;
const THROW: Happening = { kind: 'thrown', picks: 1 };

/** What the bench sounds and says on the way from one state to the next. */
function heard(before: Progress | null, after: Progress, ahead = AHEAD): Heard {
  const { signals, spoken } = callsBetween(before, after, ahead);
  return { signals, words: callWords(after, spoken) };
}

interface Weaving {
  readonly weaver: Listener;
  readonly signals: readonly Signal[];
  readonly said: readonly string[];
}

/** Weaves a whole warp by ear. The weaver presses a pedal until told that all is woven. */
function weaveByEar(
  plan: Plan,
  ahead = AHEAD,
  besides: ReadonlyMap<number, Happening> = new Map(),
) {
  const weaver = newListener();
  const signals: Signal[] = [];
  const said: string[] = [];
  let progress = startOf(plan);
  const listen = (it: Heard) => {
    signals.push(...it.signals);
    said.push(...it.words);
    hear(weaver, plan, it);
  };
  const press = (event: Happening) => {
    const next = happened(progress, event);
    listen(heard(progress, next, ahead));
    progress = next;
  };
  listen(heard(null, progress, ahead));
  for (let presses = 0; weaver.next !== null && presses < 20_000; presses++) {
    const also = besides.get(progress.pick);
    if (also !== undefined) press(also);
    throwInMind(weaver);
    press(THROW);
  }
  return { weaver, signals, said } satisfies Weaving;
}

/** The cloth as the slow weaver of the tests makes it from the plan alone. */
const clothOf = (plan: Plan, shedFlips: readonly number[] = []) =>
  weave(plan, { shedFlips, sides: [] }).map(({ yarn, shed, from }) => ({ yarn, shed, from }));

const hem = { kind: 'hem', washedAllowance: 10, yarn: 'B' } as const;
const stitched = { kind: 'hemstitch', fringe: 50, twisted: false } as const;

const plans: readonly { readonly what: string; readonly plan: Plan }[] = [
  { what: 'stripes', plan: planWeaving('AB', [solid('A', 5), solid('B', 3), solid('A', 2)]) },
  {
    what: 'two colours in turn, 2 and 2',
    plan: planWeaving('AB', [solid('A', 4), alternation('B2 A2', { kind: 'turns', turns: 7 })]),
  },
  {
    what: 'two colours in turn, 1 and 1',
    plan: planWeaving('AB', [alternation('A1 B1', { kind: 'turns', turns: 9 })]),
  },
  {
    what: 'three colours there and back',
    plan: planWeaving('ABC', [
      alternation('A2 B1 C3', { kind: 'turns', turns: 9 }, { path: 'there-and-back' }),
    ]),
  },
  {
    what: 'a repeat and a mirror',
    plan: planWeaving('ABC', [
      { kind: 'repeat', times: 3, of: [solid('A', 3), solid('B', 1)] },
      { kind: 'mirror', centre: 'shared', of: [solid('C', 2), solid('B', 4)] },
    ]),
  },
  {
    what: 'hems in their own yarn',
    plan: planOf({ pieces: [pieceOf([solid('A', 6)], { beginning: hem, ending: hem })] }),
  },
  {
    what: 'hemstitched pieces with a gap between them',
    plan: planOf({
      pieces: [
        pieceOf([solid('A', 9)], { name: 'Towel 1', beginning: stitched, ending: stitched }),
        pieceOf([solid('B', 9)], {
          name: 'Towel 2',
          beginning: stitched,
          ending: stitched,
          startShed: 'down',
        }),
      ],
    }),
  },
  {
    what: 'a piece on shafts',
    plan: planOf({
      loom: { ...planOf({}).loom, kind: 'shaft' },
      warp: { order: [{ kind: 'solid', yarn: 'A', ends: 4 }], viewpoint: 'front' },
      pieces: [pieceOf([solid('A', 3), solid('B', 4)], { startShed: 'odd' })],
    }),
  },
  { what: 'the towels', plan: checked(demo('moss-and-chalk')) },
  { what: 'the runners', plan: checked(demo('ink-oat-ochre')) },
];

describe('a weaver who only hears weaves the cloth of the plan:', () => {
  it.each(plans)('$what', ({ plan }) => {
    const { weaver } = weaveByEar(plan);
    expect(weaver.cloth).toEqual(clothOf(plan));
  });

  it('with no warning ahead as well', () => {
    const plan = checked(demo('moss-and-chalk'));
    const { weaver } = weaveByEar(plan, 0);
    expect(weaver.cloth).toEqual(clothOf(plan));
    expect(weaver.ahead).toEqual([]);
  });

  it('with another shed asked for in the middle of a stripe and at a change', () => {
    const plan = planWeaving('AB', [solid('A', 6), solid('B', 5)]);
    const besides = new Map<number, Happening>([
      [2, { kind: 'otherShed' }],
      [6, { kind: 'otherShed' }],
    ]);
    const { weaver } = weaveByEar(plan, AHEAD, besides);
    expect(weaver.cloth).toEqual(clothOf(plan, [2, 6]));
  });

  it('whatever the plan', () => {
    fc.assert(
      fc.property(anyPlan, fc.nat(20), (plan, ahead) => {
        expect(weaveByEar(plan, ahead).weaver.cloth).toEqual(clothOf(plan));
      }),
      { numRuns: 60 },
    );
  });
});

describe('a small piece, word for word', () => {
  const plan = planWeaving('AB', [solid('A', 6), solid('B', 2)]);

  it('is this', () => {
    const { said, signals } = weaveByEar(plan, 2);
    expect(said).toEqual([
      '6 of yarn A, from the right, heddle up.',
      'Start yarn A on the right.',
      'In 2 picks, yarn B.',
      'Then cut yarn A: it is done in this piece.',
      '2 of yarn B, from the right, heddle up.',
      'Start yarn B on the right, coming up under yarn A.',
      'In 2 picks: All pieces are woven.',
      'Due: All pieces are woven. Leave the fringe, then cut the cloth off the loom.',
      'Woven to the end.',
    ]);
    expect(signals).toEqual([
      ...['pick', 'pick', 'pick', 'coming', 'pick'],
      ...['now', 'pick', 'now', 'due'],
    ]);
  });

  it('says the turn anew after picks taken out, and sounds it', () => {
    let progress = happened(startOf(plan), { kind: 'thrown', picks: 4 });
    const next = happened(progress, { kind: 'takenOut', picks: 1 });
    expect(heard(progress, next)).toEqual({
      signals: ['back'],
      words: ['3 more of yarn A, from the left, heddle down.'],
    });
    progress = next;
    expect(heard(progress, progress)).toEqual({ signals: [], words: [] });
  });
});

describe('what is due', () => {
  it('is told before the pick it belongs to, in the order of the work', () => {
    const { weaver } = weaveByEar(checked(demo('moss-and-chalk')));
    const titles = weaver.dues.map((it) => it.split('.')[0]);
    expect(titles[0]).toMatch(/^Leave a tail of/);
    const wanted = [/^Leave a tail/, /^Hemstitch the beginning/, /^Hemstitch the ending/];
    wanted.push(/^Cut the yarns/, /^Leave a gap/, /^Leave a tail/, /^All pieces are woven/);
    let at = 0;
    for (const one of wanted) {
      const found = titles.findIndex((it, i) => i >= at && one.test(it ?? ''));
      expect(found, String(one)).toBeGreaterThanOrEqual(at);
      at = found;
    }
  });

  it('names the side of every tail and of every hemstitching', () => {
    const { weaver } = weaveByEar(checked(demo('moss-and-chalk')));
    const sided = weaver.dues.filter((it) => /^(Leave a tail|Hemstitch)/.test(it));
    expect(sided.length).toBeGreaterThanOrEqual(8);
    for (const it of sided) expect(it).toMatch(/on the (left|right)/i);
  });

  it('is told once, and not again when it is put off', () => {
    const plan = checked(demo('moss-and-chalk'));
    const start = startOf(plan);
    const later = happened(start, { kind: 'dueDeferred', due: '0/tail' });
    expect(heard(start, later)).toEqual({ signals: [], words: [] });
    expect(heard(later, happened(later, THROW)).signals).toEqual(['pick']);
  });
});

describe('the weaver always has the pick in mind that the bench shows', () => {
  function follow(plan: Plan, log: readonly Happening[], ahead: number): void {
    const weaver = newListener();
    let progress = startOf(plan);
    hear(weaver, plan, heard(null, progress, ahead));
    for (const event of log) {
      const next = happened(progress, event);
      if (next.pick === progress.pick + 1) throwInMind(weaver);
      hear(weaver, plan, heard(progress, next, ahead));
      const facts = pickAt(next.course, next.pick);
      const shown =
        facts === null
          ? null
          : { yarn: plan.yarns[facts.yarn]?.letter, shed: facts.shed, from: facts.from };
      expect(weaver.next).toEqual(shown);
      if (facts !== null && weaver.left !== null)
        expect(weaver.left).toBe(facts.stripe.picks - facts.stripe.done);
      progress = next;
    }
  }

  const oftenOne = (plan: Plan) =>
    fc.array(fc.oneof({ weight: 4, arbitrary: fc.constant(THROW) }, happening(plan)), {
      maxLength: 40,
    });

  it('after whatever happens', () => {
    const anyLog = anyPlan.chain((plan) => fc.tuple(fc.constant(plan), oftenOne(plan), fc.nat(20)));
    fc.assert(
      fc.property(anyLog, ([plan, log, ahead]) => follow(plan, log, ahead)),
      { numRuns: 150 },
    );
  });

  it('and while weaving by eye', () => {
    fc.assert(
      fc.property(anyFreeLog, ({ plan, log }) => follow(plan, log, AHEAD)),
      { numRuns: 150 },
    );
  });
});

describe('names', () => {
  it('that two yarns share are told with their letters', () => {
    const twins = yarns('AB').map((yarn) => ({ ...yarn, name: 'grey' }));
    const plan = planOf({ yarns: twins, pieces: [pieceOf([solid('B', 2)])] });
    expect(heard(null, startOf(plan)).words[0]).toBe('2 of grey B, from the right, heddle up.');
  });
});
