/** Random plans and logs, aimed at what goes wrong: nests, mirrors, ties, cuts, catches, odd turns. */
import fc from 'fast-check';
import type { Happening } from '../../../src/core/bench/events.ts';
import type {
  AlternationBlock,
  Block,
  Edge,
  Letter,
  Piece,
  Plan,
  Resting,
  Side,
} from '../../../src/core/plan/plan.ts';
import { BASE, checked, yarns } from '../plan/samples.ts';
import { firstTurns } from './layByHand.ts';

const side = fc.constantFrom<Side>('left', 'right');
const spacing = fc.constantFrom(1, 1.5, 2, 2.54, 3);
const sometimes = <T>(arbitrary: fc.Arbitrary<T>) =>
  fc.option(arbitrary, { nil: undefined, freq: 3 });

const resting: fc.Arbitrary<Resting> = fc.oneof(
  fc.constant<Resting>({ mode: 'float' }),
  fc.constant<Resting>({ mode: 'cut' }),
  fc.integer({ min: 1, max: 5 }).map((every): Resting => ({ mode: 'catch', every })),
);

/** An object without its absent fields: a plan has no field that is undefined. */
function present<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  const kept = Object.entries(value).filter(([, it]) => it !== undefined);
  return Object.fromEntries(kept) as { [K in keyof T]: Exclude<T[K], undefined> };
}

function woven(letters: readonly Letter[]) {
  const letter = fc.constantFrom(...letters);
  return {
    pickSpacing: sometimes(spacing),
    resting: sometimes(fc.dictionary(letter, resting, { minKeys: 1, maxKeys: 2 })),
    starts: sometimes(fc.dictionary(letter, side, { minKeys: 1, maxKeys: 2 })),
  };
}

/** Lengths that fall between picks, and on the ties between them. */
const loomLength = fc.integer({ min: 1, max: 60 }).map((n) => n / 2);

function solidBlock(letters: readonly Letter[]): fc.Arbitrary<Block> {
  const parity = sometimes(fc.constantFrom('even' as const, 'odd' as const, 'any' as const));
  const extent = fc.oneof(
    fc.record({ kind: fc.constant('picks' as const), picks: fc.integer({ min: 1, max: 9 }) }),
    fc.record({ kind: fc.constant('length' as const), loomLength, parity }).map(present),
  );
  return fc
    .record({
      kind: fc.constant('solid' as const),
      yarn: fc.constantFrom(...letters),
      extent,
      ...woven(letters),
    })
    .map((block) => present(block) as Block);
}

/** Cycles of 2 to 5 yarns, also such as A B A C, where one yarn has two turns. */
function cycleOf(letters: readonly Letter[]) {
  const different = fc.shuffledSubarray([...letters], { minLength: 2, maxLength: letters.length });
  const twice = different.map((list) =>
    list.length < 3 ? list : [list[0] ?? '', list[1] ?? '', ...[list[0] ?? ''], ...list.slice(2)],
  );
  return fc
    .oneof({ weight: 3, arbitrary: different }, { weight: 1, arbitrary: twice })
    .chain((list) =>
      fc.tuple(
        ...list.map((yarn) => fc.integer({ min: 1, max: 4 }).map((picks) => ({ yarn, picks }))),
      ),
    );
}

export function alternationBlock(letters: readonly Letter[]): fc.Arbitrary<AlternationBlock> {
  return cycleOf(letters).chain((cycle) => {
    const path =
      cycle.length > 2
        ? fc.constantFrom('round' as const, 'there-and-back' as const)
        : fc.constant('round' as const);
    const opens = fc.constantFrom(...cycle.map((turn) => turn.yarn));
    const shape = fc.record({
      cycle: fc.constant(cycle),
      path,
      opens,
      closes: sometimes(opens),
      ...woven(letters),
    });
    const size = fc.record({
      kind: fc.constantFrom('turns', 'picks', 'length'),
      n: fc.integer({ min: 1, max: 6 }),
      loomLength,
    });
    return fc.tuple(shape, size).map(([it, { kind, n, loomLength: length }]) => {
      const block = { kind: 'alternation' as const, ...present(it) };
      const turns = closingTurns({ ...block }, n);
      const picks = firstTurns(block, turns).reduce((sum, turn) => sum + turn.picks, 0);
      if (kind === 'turns') return { ...block, extent: { kind, turns } } as AlternationBlock;
      if (kind === 'picks') return { ...block, extent: { kind, picks } } as AlternationBlock;
      return { ...block, extent: { kind: 'length', loomLength: length } } as AlternationBlock;
    });
  });
}

/** The n-th number of turns with which an alternation closes. */
function closingTurns(block: Omit<AlternationBlock, 'extent'>, n: number): number {
  let found = 0;
  for (let turns = 1; ; turns++) {
    const last = firstTurns(block, turns).at(-1)?.yarn;
    if (block.closes === undefined || last === block.closes) found++;
    if (found === n) return turns;
  }
}

export function blockOf(letters: readonly Letter[]): fc.Arbitrary<Block> {
  const { block } = fc.letrec<{ block: Block; several: Block[] }>((tie) => ({
    several: fc.array(tie('block'), { minLength: 1, maxLength: 3 }),
    block: fc.oneof(
      { maxDepth: 3, depthSize: 'small', withCrossShrink: true },
      { weight: 3, arbitrary: solidBlock(letters) },
      { weight: 4, arbitrary: alternationBlock(letters) },
      {
        weight: 1,
        arbitrary: fc.record({
          kind: fc.constant('repeat' as const),
          times: fc.integer({ min: 1, max: 3 }),
          of: tie('several'),
        }),
      },
      {
        weight: 1,
        arbitrary: fc.record({
          kind: fc.constant('mirror' as const),
          centre: fc.constantFrom('shared' as const, 'doubled' as const),
          of: tie('several'),
        }),
      },
    ),
  }));
  return block;
}

function edge(letters: readonly Letter[]): fc.Arbitrary<Edge> {
  const seam = {
    washedAllowance: fc.constantFrom(0, 3, 7.5),
    yarn: sometimes(fc.constantFrom(...letters)),
  };
  return fc.oneof(
    fc.record({
      kind: fc.constant('hemstitch' as const),
      fringe: fc.constantFrom(0, 20),
      twisted: fc.boolean(),
    }),
    fc
      .record({
        kind: fc.constantFrom('hem' as const, 'zigzag' as const, 'plain' as const),
        ...seam,
      })
      .map((it) => present(it) as Edge),
  );
}

function pieceFor(letters: readonly Letter[], sheds: readonly Piece['startShed'][], working: Side) {
  return fc
    .record({
      name: fc.constant('Piece'),
      startShed: fc.constantFrom(...sheds),
      startSide: sometimes(side),
      beginning: edge(letters),
      ending: edge(letters),
      weft: fc.array(blockOf(letters), { minLength: 1, maxLength: 4 }),
    })
    .map((piece) => {
      const pinned = piece.beginning.kind === 'hemstitch' && piece.startSide !== undefined;
      return present({ ...piece, startSide: pinned ? working : piece.startSide }) as Piece;
    });
}

/** One to three, now and then with one that is woven just like the first. */
function piecesOf(piece: fc.Arbitrary<Piece>): fc.Arbitrary<readonly Piece[]> {
  const pieces = fc.array(piece, { minLength: 1, maxLength: 3 });
  const alike = fc.tuple(piece, fc.array(piece, { maxLength: 1 }));
  return fc.oneof(
    { weight: 2, arbitrary: pieces },
    { weight: 1, arbitrary: alike.map(([first, more]) => [first, ...more, first]) },
  );
}

interface Frame {
  readonly letters: readonly Letter[];
  readonly loom: 'rigid-heddle' | 'shaft';
  readonly working: Side;
}

const frame: fc.Arbitrary<Frame> = fc.record({
  letters: fc.integer({ min: 2, max: 5 }).map((n) => [...'ABCDE'.slice(0, n)]),
  loom: fc.constantFrom('rigid-heddle' as const, 'shaft' as const),
  working: side,
});

const share = (...shares: number[]) =>
  fc.constantFrom(...shares).map((it) => ({ share: it, from: { kind: 'typed' as const } }));

/** A checked plan of one to three pieces; every plan made here must be accepted. */
export const anyPlan: fc.Arbitrary<Plan> = frame.chain(({ letters, loom, working }) => {
  const sheds = loom === 'shaft' ? (['odd', 'even'] as const) : (['up', 'down'] as const);
  const yarnsOf = fc.tuple(
    ...yarns(letters.join('')).map((yarn) =>
      fc
        .record({ resting: sometimes(resting), pickSpacing: sometimes(spacing) })
        .map((more) => ({ ...yarn, ...present(more) })),
    ),
  );
  return fc
    .record({
      yarns: yarnsOf,
      pieces: piecesOf(pieceFor(letters, sheds, working)),
      hand: side,
      carryLimit: fc.constantFrom(0, 5, 10, 25),
      pickSpacing: spacing,
      depth: fc.constantFrom(20, 60, 120),
      shrinkLength: share(0, 0.1),
      relax: share(0, 0.04),
    })
    .map(({ hand, carryLimit, pickSpacing, depth, shrinkLength, relax, ...rest }) =>
      checked({
        ...BASE,
        ...rest,
        loom: { ...BASE.loom, kind: loom, weavingDepth: depth },
        warp: {
          order: BASE.warp.order,
          viewpoint: 'front',
          ...(loom === 'shaft' ? {} : { firstEnd: 'hole' }),
        },
        weaving: { ...BASE.weaving, hand, workingSide: working, carryLimit, pickSpacing },
        allowances: { ...BASE.allowances, shrinkLength, relax },
      }),
    );
});

/** Where every shuttle of a plan was found. */
export function sidesOf(plan: Plan): fc.Arbitrary<Readonly<Record<Letter, Side>>> {
  return fc.record(Object.fromEntries(plan.yarns.map((yarn) => [yarn.letter, side])));
}

export function happening(plan: Plan): fc.Arbitrary<Happening> {
  const words = plan.loom.kind === 'shaft' ? (['odd', 'even'] as const) : (['up', 'down'] as const);
  const few = fc.integer({ min: 0, max: 20 });
  const kind = <const K extends string>(name: K) => fc.constant(name);
  return fc.oneof(
    { weight: 6, arbitrary: fc.record({ kind: kind('thrown'), picks: few }) },
    { weight: 2, arbitrary: fc.record({ kind: kind('takenOut'), picks: few }) },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: kind('woveLength'),
        loomLength: fc.integer({ min: 0, max: 40 }),
      }),
    },
    { weight: 1, arbitrary: fc.record({ kind: kind('otherShed') }) },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: kind('placed'),
        pick: fc.nat(300),
        shed: fc.constantFrom(...words),
        sides: sidesOf(plan),
      }),
    },
    {
      weight: 2,
      arbitrary: fc.record({
        kind: kind('blockSet'),
        piece: fc.nat(3),
        block: fc.nat(6),
        picks: fc.nat(15),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: kind('dueDone'),
        due: fc.constantFrom('0/tail', '0/gap', '1/tail'),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.record({ kind: kind('dueDeferred'), due: fc.constantFrom('0/tail', '0/gap') }),
    },
    { weight: 1, arbitrary: fc.record({ kind: kind('advanced') }) },
    { weight: 1, arbitrary: fc.record({ kind: kind('cutOff') }) },
  );
}
