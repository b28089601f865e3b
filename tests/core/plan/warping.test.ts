import { describe, expect, it } from 'vitest';
import type { Plan, Stripe } from '../../../src/core/plan/plan.ts';
import { evenParts, inRounds } from '../../../src/core/plan/warping/batches.ts';
import type { WarpingList, WarpingStep } from '../../../src/core/plan/warping/list.ts';
import { usualWay, warpingList, warpingMethods } from '../../../src/core/plan/warping.ts';
import { sheetOf } from '../../../src/core/planner/sheet.ts';
import { checked, demo, planOf, yarns } from './samples.ts';

/** `A4 B2` as stripes. */
const stripes = (text: string): readonly Stripe[] =>
  text.split(' ').map((run) => ({
    kind: 'solid',
    yarn: run.slice(0, 1),
    ends: Number(run.slice(1)),
  }));

const warped = (order: string, warp: Partial<Plan['warp']> = {}) =>
  planOf({
    yarns: yarns('ABC'),
    warp: { order: stripes(order), firstEnd: 'slot', viewpoint: 'front', ...warp },
  });

const direct = (plan: Plan, viewpoint: 'front' | 'back' = 'front') =>
  warpingList(plan, { method: 'direct', viewpoint, warpLength: 2000 });

/** A list in short, slots and ends counted from 1 as a weaver does; set-up and winding on left out. */
const short = (list: WarpingList) =>
  list.steps.filter(({ kind }) => kind !== 'setup' && kind !== 'wind').map(inShort);

const runsInShort = (list: readonly { readonly of: string; readonly count: number }[]) =>
  list.map(({ of, count }) => `${of}${count}`).join(' ');

function inShort(step: WarpingStep): string {
  if (step.kind === 'setup' || step.kind === 'wind' || step.kind === 'floating') return step.kind;
  const at = step.to - step.from === 1 ? `${step.to}` : `${step.from + 1}–${step.to}`;
  switch (step.kind) {
    case 'loops':
      return `${at} loops ${runsInShort(step.round)}${step.times > 1 ? ` × ${step.times}` : ''}`;
    case 'tie':
      return `${at} tie ${step.yarns.join('')}`;
    case 'single':
      return `${at} single ${step.yarn}`;
    case 'thread':
    case 'move':
      return `${at} ${step.kind} ${runsInShort(step.runs)}`;
    case 'choose':
      return `${at} stays ${step.stays.join('')} moves ${step.moves.join('')}`;
    case 'swap':
      return `${at} swap ${step.gives}${step.takes}`;
  }
}

const oddPlaces = (list: WarpingList) =>
  list.oddPlaces.map((it) => `${it.kind} ${it.from + 1}–${it.to}`);

// How direct warping is done with a rigid heddle, and how odd runs are dealt with in it: common
// practice, no source. Every list can be followed with a pencil.
const WORKED = [
  {
    what: 'even stripes',
    order: 'A4 B4',
    steps: ['1–2 loops A2', '3–4 loops B2', '1–4 move A2 B2'],
    odd: [],
  },
  {
    what: '2 and 2, a loop of each by turns',
    order: 'A2 B2 A2 B2 A2 B2',
    steps: ['1–6 loops A1 B1 × 3', '1–6 move A1 B1 A1 B1 A1 B1'],
    odd: [],
  },
  {
    what: '1 and 1, wholly as swaps',
    order: 'A1 B1 A1 B1 A1 B1 A1 B1',
    steps: ['1–4 loops A1 B1 × 2', '1–4 swap AB'],
    odd: ['swap 1–4'],
  },
  {
    what: '1 and 1 that ends as it began, wholly as swaps, the last with the single end',
    order: 'A1 B1 A1 B1 A1 B1 A1',
    steps: ['1 loops A1', '2 loops B1', '3 loops A1', '4 single B', '1–2 swap AB', '3–4 swap AB'],
    odd: ['swap 1–4', 'single 4–4'],
  },
  {
    what: '1 and 1 over an odd number of slots, one tie left',
    order: 'A1 B1 A1 B1 A1 B1',
    steps: ['1 loops A1', '2 loops B1', '3 tie BA', '1–2 swap AB', '3 stays A moves B'],
    odd: ['swap 1–2', 'tie 3–3'],
  },
  {
    what: 'odd stripes, tied at the peg where one ends inside a loop',
    order: 'A3 B4 A3',
    steps: [
      '1 loops A1',
      '2 tie AB',
      '3 loops B1',
      '4 tie BA',
      '5 loops A1',
      '1 move A1',
      '2 stays A moves B',
      '3 move B1',
      '4 stays B moves A',
      '5 move A1',
    ],
    odd: ['tie 2–2', 'tie 4–4'],
  },
  {
    what: 'an odd stripe at the edge of an odd warp, the single end first',
    order: 'A3 B2',
    steps: ['1 single A', '2 loops A1', '3 loops B1', '1 stays A moves ', '2–3 move A1 B1'],
    odd: ['single 1–1'],
  },
] as const;

describe('direct warping, worked by hand', () => {
  it.each(WORKED)('$what: $order', ({ order, steps, odd }) => {
    const list = direct(warped(order));
    expect(short(list)).toEqual(steps);
    expect(oddPlaces(list)).toEqual(odd);
  });

  it('with end 1 in a hole the loops are the same and the holes lie before their slots', () => {
    const [slot, hole] = [direct(warped('A3 B5')), direct(warped('A3 B5', { firstEnd: 'hole' }))];
    expect([slot.holeSide, hole.holeSide]).toEqual(['right', 'left']);
    expect(short(slot).filter((it) => it.includes('stays'))).toEqual(['2 stays A moves B']);
    expect(short(hole).filter((it) => it.includes('stays'))).toEqual(['2 stays B moves A']);
  });

  it('a tie can be mended by one end more here and one fewer beside it', () => {
    const [place] = direct(warped('A3 B5')).oddPlaces;
    expect(place).toMatchObject({
      kind: 'tie',
      mend: [
        { yarn: 'A', ends: 3, becomes: 4 },
        { yarn: 'B', ends: 5, becomes: 4 },
      ],
    });
    expect(oddPlaces(direct(warped('A4 B4')))).toEqual([]);
  });

  it('nothing mends a lone 1 and 1', () => {
    expect(direct(warped('A2 B1 C1 A2')).oddPlaces).toMatchObject([{ kind: 'tie', mend: null }]);
  });

  it('doubled ends: two loops a slot, two ends in the slot and two in its hole', () => {
    const plan = warped('A8 B4');
    const doubled = { ...plan, loom: { ...plan.loom, endsPerDent: 2 } };
    const list = direct(doubled);
    expect(short(list)).toEqual(['1–2 loops A4', '3 loops B2', '1–3 move A2 B1']);
    expect(list.slots[0]).toMatchObject({ stays: ['A', 'A'], moves: ['A', 'A'] });
  });

  it('from the back the work begins at the other end, and the hole lies on the other side', () => {
    const list = direct(warped('A4 B2 C2'), 'back');
    expect(short(list)).toEqual(['1 loops C1', '2 loops B1', '3–4 loops A2', '1–4 move C1 B1 A2']);
    expect(list.holeSide).toBe('left');
  });

  it('a yarn wanted again within 5 cm of the back beam is dropped and picked up, else cut', () => {
    // 12½ dents an inch: a slot every 4.064 mm, so 12 slots are 48.8 mm and 13 are 52.8 mm.
    const joins = (order: string) => {
      const steps = direct(warped(order)).steps.filter((step) => step.kind === 'loops');
      return [steps[0]?.joins[0]?.ends, steps.at(-1)?.joins[0]?.begins];
    };
    expect(joins('A4 B22 A4')).toEqual([
      { kind: 'drop', until: 13 },
      { kind: 'pick-up', from: 1 },
    ]);
    expect(joins('A4 B24 A4')).toEqual([{ kind: 'cut' }, { kind: 'tie-on' }]);
  });
});

describe('the demo in moss and chalk', () => {
  const plan = checked(demo('moss-and-chalk'));
  const list = warpingList(plan, { ...usualWay(plan), warpLength: 1828.8 });

  it('is warped directly: 100 loops from the 26th of 150 slots', () => {
    expect(list).toMatchObject({ method: 'direct', ends: 200, loops: 100, singles: 0 });
    expect(list.start).toEqual({ kind: 'slot', index: 25, of: 150, free: 101.6 });
    expect(list.oddPlaces).toEqual([]);
  });

  it('goes through the slots stripe by stripe, the wide one in four', () => {
    const loops = short(list).filter((it) => it.includes('loops'));
    expect(loops.map((it) => it.split(' loops ')[1])).toEqual(
      'B12 A6 B2 C2 B2 A6 B10 B10 B10 B10 A6 B2 C2 B2 A6 B12'.split(' '),
    );
  });

  it('is set up first, and wound on between loops and holes', () => {
    const phases = list.steps.map(({ phase }) => phase);
    expect(phases.filter((phase, i) => phase !== phases[i - 1])).toEqual([
      'setup',
      'loops',
      'wind',
      'holes',
    ]);
  });

  it('takes each yarn as often as the plan has ends of it, over the warp length', () => {
    expect(list.yarns.map(({ yarn, ends, loops }) => [yarn, ends, loops])).toEqual([
      ['A', 48, 24],
      ['B', 144, 72],
      ['C', 8, 4],
    ]);
    expect(list.yarns.map(({ length }) => length)).toEqual([48, 144, 8].map((n) => n * 1828.8));
    expect(list.steps.at(-1)?.soFar.map(({ ends }) => ends)).toEqual([48, 144, 8]);
  });

  it('can be threaded end by end too', () => {
    const threaded = warpingList(plan, { method: 'ends', viewpoint: 'front', warpLength: 1828.8 });
    expect(short(threaded).slice(0, 4)).toEqual([
      '1–24 thread B24',
      '25–48 thread A12 B4 C4 B4',
      '49–60 thread A12',
      '61–80 thread B20',
    ]);
    expect(threaded.threads.slice(0, 3).map(({ place }) => place)).toEqual([
      { kind: 'slot', index: 0 },
      { kind: 'hole', index: 0 },
      { kind: 'slot', index: 1 },
    ]);
  });
});

describe('the demo in ink, oat and ochre', () => {
  const plan = checked(demo('ink-oat-ochre'));
  const list = warpingList(plan, { ...usualWay(plan), warpLength: 3000 });
  const groups = list.steps.filter((step) => step.kind === 'thread');

  it('is threaded end by end: a shaft loom has no slots', () => {
    expect(warpingMethods(plan)).toEqual(['ends']);
    expect(() => direct(plan)).toThrow('shaft');
    expect([list.ends, list.loops, list.singles]).toEqual([254, 0, 254]);
  });

  it('begins in dent 60 of 245, so that 127 dents are centred', () => {
    expect(list.start).toMatchObject({ kind: 'dent', index: 59, of: 245 });
    expect(sheetOf(plan).dents.first).toBe(59);
  });

  it('has groups that fill whole dents, on shafts 1 and 2 by turns', () => {
    expect(short(list).slice(0, 5)).toEqual([
      '1–20 thread B20',
      '21–44 thread A16 B8',
      '45–62 thread C2 B2 C2 B2 C2 B2 C2 B2 C2',
      '63–84 thread B22',
      '85–106 thread B22',
    ]);
    expect(groups.every(({ dents }) => dents?.sharesFirst === false && !dents.sharesLast)).toBe(
      true,
    );
    expect(groups[1]?.dents).toMatchObject({ from: 10, to: 22 });
    expect(groups[0]?.first).toEqual({ kind: 'shaft', shaft: 1, dent: 0 });
    expect(groups[0]?.last).toEqual({ kind: 'shaft', shaft: 2, dent: 9 });
  });

  it('from the back an even warp begins on shaft 2', () => {
    const back = warpingList(plan, { method: 'ends', viewpoint: 'back', warpLength: 3000 });
    expect(back.threads[0]?.place).toEqual({ kind: 'shaft', shaft: 2, dent: 0 });
    expect(back.start.index).toBe(245 - 127 - 59);
  });
});

describe('floating selvedges', () => {
  const plan = warped('A8', { floatingSelvedges: { yarn: 'B' } });
  const list = direct(plan);

  it('are counted apart and hung last', () => {
    expect(list.ends).toBe(8);
    expect(list.floating).toEqual({ yarn: 'B', ends: 2, length: 4000 });
    expect(list.steps.at(-1)).toMatchObject({ kind: 'floating', yarn: 'B' });
    expect(list.yarns.map(({ yarn }) => yarn)).toEqual(['A']);
  });

  it('of a yarn not otherwise in the warp are in no running count', () => {
    expect(list.steps.at(-2)?.soFar).toEqual([{ yarn: 'A', ends: 8, loops: 0 }]);
  });
});

describe('parts of a stripe', () => {
  it.each([
    [40, 12, 1, [10, 10, 10, 10]],
    [130, 24, 2, [22, 22, 22, 22, 22, 20]],
    [25, 24, 1, [13, 12]],
    [25, 24, 2, [14, 11]],
    [12, 12, 1, [12]],
    [20, 24, 16, [16, 4]],
  ])('%i at most %i in units of %i: %o', (total, most, unit, parts) => {
    expect(evenParts(total, most, unit)).toEqual(parts);
  });
});

describe('runs told in rounds', () => {
  const told = (text: string) =>
    inRounds(text.split(' ').map((run) => ({ of: run.slice(0, 1), count: Number(run.slice(1)) })))
      .map(({ round, times }) => `${runsInShort(round)} × ${times}`)
      .join(', ');

  it.each([
    ['A12', 'A12 × 1'],
    ['B8 C2 B2 C2 B2', 'B8 × 1, C2 B2 × 2'],
    ['C2 B2 C2 B2 C2', 'C2 B2 × 2, C2 × 1'],
    ['A1 B2 C3 A1 B2 C3', 'A1 B2 C3 × 2'],
    ['A1 B1 C1 B1 A1', 'A1 × 1, B1 × 1, C1 × 1, B1 × 1, A1 × 1'],
  ])('%s is %s', (runs, rounds) => {
    expect(told(runs)).toBe(rounds);
  });
});
