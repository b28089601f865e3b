import { describe, expect, it } from 'vitest';
import { NO_ADJUSTMENTS } from '../../../src/core/bench/adjustments.ts';
import { layCourse } from '../../../src/core/bench/course.ts';
import { checkPlan, type PlanResult, readPlanText } from '../../../src/core/plan/checkPlan.ts';
import { LIMITS } from '../../../src/core/plan/limits.ts';
import type { Block } from '../../../src/core/plan/plan.ts';
import { PROBLEM_CODES, type Problem } from '../../../src/core/plan/problems.ts';
import { alternation, BASE, demo, INCH, pieceOf, solid } from './samples.ts';

/** A sound plan with one place in it changed; `undefined` takes the field out. */
function changed(path: string, value: unknown): unknown {
  const plan: unknown = structuredClone({ ...BASE, warp: { ...BASE.warp } });
  const keys = path.split('.');
  let at = plan as Record<string, unknown>;
  for (const key of keys.slice(0, -1)) at = at[key] as Record<string, unknown>;
  const last = keys.at(-1) ?? '';
  if (value === undefined) delete at[last];
  else at[last] = value;
  return plan;
}

function problemsOf(result: PlanResult): readonly Problem[] {
  return result.ok ? [] : result.problem;
}

/** A piece that weaves this, hemstitched or not. */
const weaving = (...weft: readonly unknown[]) => changed('pieces.0.weft', weft);
const turns = (n: number) => ({ kind: 'turns', turns: n }) as const;
const picks = (n: number) => ({ kind: 'picks', picks: n }) as const;
const repeated = (times: number, of: unknown): unknown => ({ kind: 'repeat', times, of: [of] });
const nested = (depth: number, times: number, inner: unknown): unknown =>
  depth === 0 ? inner : repeated(times, nested(depth - 1, times, inner));

const EDITIONS: readonly (readonly [fact: string, input: unknown, problem: Problem])[] = [
  ['no object', 'a plan', { path: '', code: 'wrong-type', got: 'a plan', right: 'object' }],
  ['nothing', undefined, { path: '', code: 'wrong-type', right: 'object' }],
  ['null', null, { path: '', code: 'wrong-type', got: 'null', right: 'object' }],
  ['a list', [], { path: '', code: 'wrong-type', got: 'a list', right: 'object' }],
  [
    'another format',
    changed('format', 'other'),
    { path: 'format', code: 'wrong-format', got: 'other', right: 'fellmark-plan' },
  ],
  [
    'no format',
    changed('format', undefined),
    { path: 'format', code: 'wrong-format', right: 'fellmark-plan' },
  ],
  [
    'a newer version',
    changed('version', 2),
    { path: 'version', code: 'newer-version', got: '2', right: '1' },
  ],
  [
    'an older version',
    changed('version', 0),
    { path: 'version', code: 'wrong-version', got: '0', right: '1' },
  ],
  [
    'a version in words',
    changed('version', '1'),
    { path: 'version', code: 'wrong-version', got: '1', right: '1' },
  ],
];

const SHAPES: readonly (readonly [fact: string, input: unknown, problem: Problem])[] = [
  ['no name', changed('name', undefined), { path: 'name', code: 'missing', right: 'name' }],
  ['no loom', changed('loom', undefined), { path: 'loom', code: 'missing', right: 'loom' }],
  [
    'a name of spaces',
    changed('name', '  '),
    { path: 'name', code: 'too-short', got: '', right: '1' },
  ],
  [
    'a name without end',
    changed('name', 'x'.repeat(121)),
    { path: 'name', code: 'too-long', got: 'x'.repeat(60), right: '120' },
  ],
  [
    'a field of no plan',
    changed('loom.colour', 'red'),
    { path: 'loom.colour', code: 'unknown-field', got: 'colour' },
  ],
  [
    'a loom of text',
    changed('loom', 'big'),
    { path: 'loom', code: 'wrong-type', got: 'big', right: 'Object' },
  ],
  [
    'a width of text',
    changed('loom.weavingWidth', '600'),
    { path: 'loom.weavingWidth', code: 'wrong-type', got: '600', right: 'number' },
  ],
  [
    'a width of nothing',
    changed('loom.weavingWidth', null),
    { path: 'loom.weavingWidth', code: 'wrong-type', got: 'null', right: 'number' },
  ],
  [
    'no width at all',
    changed('loom.weavingWidth', 0),
    { path: 'loom.weavingWidth', code: 'too-small', got: '0', right: '0.1' },
  ],
  [
    'a negative waste',
    changed('loom.backWaste', -1),
    { path: 'loom.backWaste', code: 'too-small', got: '-1', right: '0' },
  ],
  [
    'a number that is none',
    changed('loom.backWaste', Number.NaN),
    { path: 'loom.backWaste', code: 'wrong-type', got: 'NaN', right: 'number' },
  ],
  [
    'a waste without end',
    changed('loom.backWaste', Number.POSITIVE_INFINITY),
    { path: 'loom.backWaste', code: 'too-big', got: 'Infinity', right: '200000' },
  ],
  [
    'a waste below all',
    changed('loom.backWaste', Number.NEGATIVE_INFINITY),
    { path: 'loom.backWaste', code: 'too-small', got: '-Infinity', right: '0' },
  ],
  [
    'half a pick',
    weaving(solid('A', 1.5)),
    { path: 'pieces[0].weft[0].extent.picks', code: 'not-whole', got: '1.5' },
  ],
  [
    'picks without end, once and not twice',
    weaving(solid('A', Number.POSITIVE_INFINITY)),
    { path: 'pieces[0].weft[0].extent.picks', code: 'not-whole', got: 'Infinity' },
  ],
  [
    'no pick',
    weaving(solid('A', 0)),
    { path: 'pieces[0].weft[0].extent.picks', code: 'too-small', got: '0', right: '1' },
  ],
  [
    'a billion picks',
    weaving(solid('A', 1e9)),
    { path: 'pieces[0].weft[0].extent.picks', code: 'too-big', got: '1000000000', right: '100000' },
  ],
  [
    'a kind of block unknown',
    weaving({ kind: 'twill' }),
    {
      path: 'pieces[0].weft[0].kind',
      code: 'not-one-of',
      got: 'twill',
      right: '(solid | alternation | repeat | mirror | free)',
    },
  ],
  [
    'units unknown',
    changed('units', 'ell'),
    { path: 'units', code: 'not-one-of', got: 'ell', right: '(inch | metric)' },
  ],
  [
    'no yarn in a block',
    weaving({ kind: 'solid', extent: picks(2) }),
    { path: 'pieces[0].weft[0].yarn', code: 'missing', right: 'yarn' },
  ],
  [
    'no piece',
    changed('pieces', []),
    { path: 'pieces', code: 'too-short', got: 'a list', right: '1' },
  ],
  [
    'no end',
    changed('warp.order', []),
    { path: 'warp.order', code: 'no-ends', got: 'a list', right: '1' },
  ],
  [
    'a colour in words',
    changed('yarns.0.colour', 'red'),
    { path: 'yarns[0].colour', code: 'bad-colour', got: 'red', right: '/^#[0-9a-fA-F]{6}$/' },
  ],
  [
    'a letter too long',
    changed('yarns.0.letter', 'AA'),
    { path: 'yarns[0].letter', code: 'bad-letter', got: 'AA', right: '/^[A-Z]$/' },
  ],
  [
    'a small letter',
    weaving(solid('a', 2)),
    { path: 'pieces[0].weft[0].yarn', code: 'bad-letter', got: 'a', right: '/^[A-Z]$/' },
  ],
  [
    'a rest for no letter',
    weaving({ ...solid('A', 2), resting: { colour: { mode: 'cut' } } }),
    {
      path: 'pieces[0].weft[0].resting.colour',
      code: 'bad-letter',
      got: 'colour',
      right: '/^[A-Z]$/',
    },
  ],
];

const blockPath = 'pieces[0].weft[0]';
const long = alternation('A2 B2', turns(1));

const MEANINGS: readonly (readonly [fact: string, input: unknown, problem: Problem])[] = [
  [
    'a yarn that is not there, in the weft',
    weaving(solid('C', 2)),
    { path: `${blockPath}.yarn`, code: 'unknown-yarn', got: 'C', right: 'A, B' },
  ],
  [
    'in the warp',
    changed('warp.order', [
      { kind: 'repeat', times: 2, of: [{ kind: 'solid', yarn: 'C', ends: 2 }] },
    ]),
    { path: 'warp.order[0].of[0].yarn', code: 'unknown-yarn', got: 'C', right: 'A, B' },
  ],
  [
    'in an alternation of the warp',
    changed('warp.order', [
      {
        kind: 'alternation',
        turns: 2,
        cycle: [
          { yarn: 'A', ends: 2 },
          { yarn: 'Z', ends: 2 },
        ],
      },
    ]),
    { path: 'warp.order[0].cycle[1].yarn', code: 'unknown-yarn', got: 'Z', right: 'A, B' },
  ],
  [
    'in an alternation',
    weaving(alternation('A2 C2', turns(2))),
    { path: `${blockPath}.cycle[1].yarn`, code: 'unknown-yarn', got: 'C', right: 'A, B' },
  ],
  [
    'inside a mirror',
    weaving({ kind: 'mirror', centre: 'shared', of: [solid('C', 2)] }),
    { path: `${blockPath}.of[0].yarn`, code: 'unknown-yarn', got: 'C', right: 'A, B' },
  ],
  [
    'in a hem',
    changed('pieces.0.ending', { kind: 'hem', washedAllowance: 10, yarn: 'C' }),
    { path: 'pieces[0].ending.yarn', code: 'unknown-yarn', got: 'C', right: 'A, B' },
  ],
  [
    'at rest',
    weaving({ ...solid('A', 2), resting: { C: { mode: 'cut' } } }),
    { path: `${blockPath}.resting.C`, code: 'unknown-yarn', got: 'C', right: 'A, B' },
  ],
  [
    'at a start',
    weaving({ ...solid('A', 2), starts: { C: 'left' } }),
    { path: `${blockPath}.starts.C`, code: 'unknown-yarn', got: 'C', right: 'A, B' },
  ],
  [
    'floating at the selvedge',
    changed('warp.floatingSelvedges', { yarn: 'C' }),
    { path: 'warp.floatingSelvedges.yarn', code: 'unknown-yarn', got: 'C', right: 'A, B' },
  ],
  [
    'one letter twice',
    changed('yarns.1.letter', 'A'),
    { path: 'yarns[1].letter', code: 'duplicate-letter', got: 'A', right: 'B' },
  ],
  [
    'no first end in a rigid heddle',
    changed('warp.firstEnd', undefined),
    { path: 'warp.firstEnd', code: 'first-end-missing', got: 'nothing', right: 'slot, hole' },
  ],
  [
    'a first end on shafts',
    {
      ...BASE,
      loom: { ...BASE.loom, kind: 'shaft' },
      pieces: [pieceOf([solid('A', 2)], { startShed: 'odd' })],
    },
    { path: 'warp.firstEnd', code: 'first-end-not-for-shafts', got: 'slot', right: '' },
  ],
  [
    'the shed of another loom',
    changed('pieces.0.startShed', 'odd'),
    { path: 'pieces[0].startShed', code: 'shed-of-other-loom', got: 'odd', right: 'up, down' },
  ],
  [
    'more ends than the loom is wide',
    changed('warp.order.0.ends', 501),
    { path: 'warp.order', code: 'wider-than-loom', got: '501', right: '500' },
  ],
  [
    'more ends than any loom',
    changed('warp.order', [
      { kind: 'repeat', times: 3, of: [{ kind: 'solid', yarn: 'A', ends: 4000 }] },
    ]),
    { path: 'warp.order', code: 'too-many-ends', got: '12000', right: '10000' },
  ],
  [
    'a bomb of repeats in the warp',
    changed('warp.order', [nested(8, 1000, { kind: 'solid', yarn: 'A', ends: 1 })]),
    { path: 'warp.order', code: 'too-many-ends', got: '1e+24', right: '10000' },
  ],
  [
    'more picks than any warp',
    weaving(repeated(11, solid('A', 100_000))),
    { path: 'pieces', code: 'too-many-picks', got: '1100004', right: '1000000' },
  ],
  [
    'a bomb of repeats in the weft',
    weaving(nested(8, 1000, solid('A', 1))),
    { path: 'pieces[0].weft', code: 'too-long', got: '1e+24', right: '20000' },
  ],
  [
    'a bomb of mirrors',
    weaving(
      Array.from({ length: 17 }).reduce(
        (of) => ({ kind: 'mirror', centre: 'doubled', of: [of] }),
        solid('A', 1),
      ),
    ),
    { path: 'pieces[0].weft', code: 'too-long', got: '131072', right: '20000' },
  ],
  [
    'short lengths of endless turns',
    weaving(
      repeated(1000, {
        ...alternation('A90000 B90000', turns(1)),
        extent: { kind: 'length', loomLength: 1 },
      }),
    ),
    { path: 'pieces', code: 'too-many-picks', got: '360002398', right: '1000000' },
  ],
  [
    'a colour that follows itself',
    weaving(alternation('A2 B2 B1', turns(3))),
    { path: `${blockPath}.cycle[2].yarn`, code: 'cycle-neighbours-equal', got: 'B', right: 'A, B' },
  ],
  [
    'a colour that follows itself from the end round to the beginning',
    weaving(alternation('A2 B2 A1', turns(3))),
    { path: `${blockPath}.cycle[0].yarn`, code: 'cycle-neighbours-equal', got: 'A', right: 'A, B' },
  ],
  [
    'there and back between two',
    weaving(alternation('A2 B2', turns(3), { path: 'there-and-back' })),
    { path: `${blockPath}.path`, code: 'there-and-back-needs-three', got: '2', right: 'round' },
  ],
  [
    'opening on a colour not in it',
    weaving({ ...long, opens: 'C' }),
    { path: `${blockPath}.opens`, code: 'opens-not-in-cycle', got: 'C', right: 'A, B' },
  ],
  [
    'closing on a colour not in it',
    weaving({ ...long, closes: 'C' }),
    { path: `${blockPath}.closes`, code: 'closes-not-in-cycle', got: 'C', right: 'A, B' },
  ],
  [
    'turns that do not close',
    weaving(alternation('A2 B2', turns(6), { closes: 'A' })),
    { path: `${blockPath}.extent.turns`, code: 'does-not-close', got: '6', right: '5, 7' },
  ],
  [
    'a part woven by eye in a group',
    weaving({ kind: 'mirror', centre: 'shared', of: [solid('A', 2), { kind: 'free' }] }),
    { path: `${blockPath}.of[1]`, code: 'free-in-group', got: 'free', right: '' },
  ],
  [
    'picks that do not close',
    weaving(alternation('A2 B2', picks(12), { closes: 'A' })),
    { path: `${blockPath}.extent.picks`, code: 'does-not-close', got: '12', right: '10, 14' },
  ],
  [
    'picks that are no whole turns',
    weaving(alternation('A2 B3', picks(11))),
    { path: `${blockPath}.extent.picks`, code: 'not-whole-turns', got: '11', right: '10, 12' },
  ],
  [
    'picks that are no whole turns there and back',
    weaving(alternation('A1 B2 A3 B9', picks(16), { path: 'there-and-back' })),
    { path: `${blockPath}.extent.picks`, code: 'not-whole-turns', got: '16', right: '15, 18' },
  ],
  [
    'fewer picks than the first turn',
    weaving(alternation('A4 B4', picks(1))),
    { path: `${blockPath}.extent.picks`, code: 'not-whole-turns', got: '1', right: '4' },
  ],
  [
    'a hundred thousand turns that do not close',
    weaving(alternation('A2 B2', turns(100_000), { closes: 'A' })),
    {
      path: `${blockPath}.extent.turns`,
      code: 'does-not-close',
      got: '100000',
      right: '99999, 100001',
    },
  ],
  [
    'a hemstitched start away from its tail',
    changed(
      'pieces.0',
      pieceOf([solid('A', 2)], {
        beginning: { kind: 'hemstitch', fringe: 10, twisted: false },
        startSide: 'left',
      }),
    ),
    {
      path: 'pieces[0].startSide',
      code: 'hemstitch-starts-at-working-side',
      got: 'left',
      right: 'right',
    },
  ],
];

const TEXTS: readonly (readonly [fact: string, text: string, problem: Problem])[] = [
  ['no text', '', { path: '', code: 'not-json' }],
  ['half a file', JSON.stringify(BASE).slice(0, 200), { path: '', code: 'not-json' }],
  ['a file of 50 MB', 'x'.repeat(50_000_000), { path: '', code: 'too-large', right: '2 MB' }],
  [
    'a hundred thousand brackets',
    `${'['.repeat(100_000)}${']'.repeat(100_000)}`,
    { path: '', code: 'too-deep', right: '40' },
  ],
  [
    'a hundred thousand braces',
    `${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`,
    { path: '', code: 'too-deep', right: '40' },
  ],
  [
    '1e999',
    JSON.stringify(BASE).replace('"backWaste":300', '"backWaste":1e999'),
    { path: 'loom.backWaste', code: 'too-big', got: 'Infinity', right: '200000' },
  ],
  [
    'a key of every object',
    JSON.stringify(BASE)
      .replace('"notes"', '"x"')
      .replace('{"format"', '{"constructor":{},"format"'),
    { path: 'constructor', code: 'unknown-field', got: 'constructor' },
  ],
  [
    'a prototype',
    JSON.stringify(BASE).replace('{"format"', '{"__proto__":{"name":"x"},"format"'),
    { path: '__proto__', code: 'unknown-field', got: '__proto__' },
  ],
];

describe('a plan file is refused for', () => {
  it.each([...EDITIONS, ...SHAPES])('%s', (_, input, problem) => {
    expect(problemsOf(checkPlan(input))).toEqual([problem]);
  });

  it.each(TEXTS)('%s', (_, text, problem) => {
    expect(problemsOf(readPlanText(text))).toEqual([problem]);
  });
});

describe('a plan is refused for', () => {
  it.each(MEANINGS)('%s', (_, input, problem) => {
    expect(problemsOf(checkPlan(input))).toEqual([problem]);
  });
});

describe('what is wrong with a plan', () => {
  it('can be any of the codes, and each of them is shown above', () => {
    const texts = TEXTS.map(([, , problem]) => problem.code);
    const shown = new Set(
      [...EDITIONS, ...SHAPES, ...MEANINGS].map(([, , problem]) => problem.code),
    );
    expect([...new Set([...shown, ...texts])].sort()).toEqual([...PROBLEM_CODES].sort());
  });

  it('is told all at once', () => {
    const many = { ...BASE, name: '', units: 'ell', loom: { ...BASE.loom, backWaste: -1 } };
    expect(problemsOf(checkPlan(many)).map((it) => it.path)).toEqual([
      'name',
      'units',
      'loom.backWaste',
    ]);
  });

  it('is told fifty times at most', () => {
    const pieces = Array.from({ length: 60 }, () => 1);
    expect(problemsOf(checkPlan({ ...BASE, pieces }))).toHaveLength(50);
  });
});

describe('a plan is accepted', () => {
  it.each([
    ['as it stands', BASE],
    [
      'with markup for a name: it is text, and shown as text',
      changed('name', '<img src=x onerror=alert(1)>'),
    ],
    ['with a name of other letters', changed('name', 'Geschirrtücher für Oma ☕')],
    [
      'with 100,000 turns that close',
      weaving({ ...alternation('A1 B1', turns(99_999), { closes: 'A' }) }),
    ],
    ['with as many blocks as may be laid', weaving(repeated(1000, repeated(20, solid('A', 2))))],
    ['as wide as its loom', changed('warp.order.0.ends', 500)],
    [
      'as wide as its loom, though 11 in times 8 to the inch is no whole number in millimetres',
      {
        ...BASE,
        loom: { ...BASE.loom, dents: { count: 8, per: 'inch' }, weavingWidth: 11 * INCH },
        warp: { ...BASE.warp, order: [{ kind: 'solid', yarn: 'A', ends: 88 }] },
      },
    ],
  ])('%s', (_, input) => {
    const result = checkPlan(input);
    expect(problemsOf(result)).toEqual([]);
    if (result.ok) expect(layCourse(result.value, NO_ADJUSTMENTS).picks).toBeGreaterThan(0);
  });

  it('with its names trimmed and everything else as it was written', () => {
    const read = demo('moss-and-chalk') as { name: string };
    expect(checkPlan({ ...read, name: `  ${read.name} ` })).toEqual({ ok: true, value: read });
  });

  it('never from an object that leads back to itself', () => {
    const plan: { notes?: unknown } = { ...BASE };
    plan.notes = { plan, again: plan, more: [plan, plan] };
    expect(problemsOf(checkPlan(plan)).map((it) => it.code)).toEqual(['too-deep']);
  });

  it('up to the deepest nesting a file may have', () => {
    const deep = (levels: number) => checkPlan(weaving(nested(levels, 1, solid('A', 1))));
    const deepest = Array.from({ length: 40 }, (_, n) => n).findLast((n) => deep(n).ok) ?? 0;
    expect(deepest).toBeGreaterThanOrEqual(15);
    expect(problemsOf(deep(deepest + 1))).toEqual([
      { path: '', code: 'too-deep', right: String(LIMITS.nesting) },
    ]);
  });

  it('as a block, however it nests', () => {
    const block = {
      kind: 'mirror',
      centre: 'shared',
      of: [repeated(2, solid('A', 2)), solid('B', 1)],
    };
    const result = checkPlan(weaving(block as Block));
    expect(result.ok && layCourse(result.value, NO_ADJUSTMENTS).picks).toBe(9);
  });
});
