/** What the shape of a plan cannot say: yarns that exist, sheds of this loom, turns that close, sizes that fit. */
import { onceAlike } from './alike.ts';
import { countEnds, countLaidBlocks, countPicks } from './count.ts';
import { endsPerMm, warpEnds } from './geometry.ts';
import { LIMITS } from './limits.ts';
import {
  type AlternationBlock,
  type Block,
  type Edge,
  type Letter,
  type Loom,
  type LoomKind,
  type Piece,
  type Plan,
  SHED_WORDS,
  type Side,
  type Stripe,
  type Warp,
  type Yarn,
} from './plan.ts';
import type { Problem, ProblemCode } from './problems.ts';
import { remembering } from './remembering.ts';

/** Every problem of meaning in a plan of the right shape, in the order of the file. */
export function checkMeaning(plan: Plan): readonly Problem[] {
  return [
    ...checkLetters(plan),
    ...checkWarp(plan.warp, plan.yarns, plan.loom),
    ...plan.pieces.flatMap((piece, i) =>
      checkPiece(piece, `pieces[${i}]`, plan.yarns, plan.loom.kind, plan.weaving.workingSide),
    ),
    ...checkTotal(plan),
  ];
}

function problem(path: string, code: ProblemCode, got: string, right: string): Problem {
  return { path, code, got, right };
}

function checkLetters(plan: Plan): readonly Problem[] {
  const seen = new Set<Letter>();
  return plan.yarns.flatMap((yarn, i) => {
    if (!seen.has(yarn.letter)) {
      seen.add(yarn.letter);
      return [];
    }
    return [problem(`yarns[${i}].letter`, 'duplicate-letter', yarn.letter, freeLetter(plan.yarns))];
  });
}

type Yarns = readonly Yarn[];

function freeLetter(yarns: Yarns): Letter {
  const used = new Set(yarns.map((yarn) => yarn.letter));
  return [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].find((letter) => !used.has(letter)) ?? '';
}

function lettersOf(yarns: Yarns): string {
  return yarns.map((yarn) => yarn.letter).join(', ');
}

function checkYarn(yarns: Yarns, letter: Letter | undefined, path: string): readonly Problem[] {
  if (letter === undefined || yarns.some((yarn) => yarn.letter === letter)) return [];
  return [problem(path, 'unknown-yarn', letter, lettersOf(yarns))];
}

const checkWarp = remembering((warp: Warp, yarns: Yarns, loom: Loom): readonly Problem[] => {
  const found = [
    ...warp.order.flatMap((stripe, i) => checkStripe(yarns, stripe, `warp.order[${i}]`)),
    ...checkYarn(yarns, warp.floatingSelvedges?.yarn, 'warp.floatingSelvedges.yarn'),
  ];
  if (loom.kind === 'rigid-heddle' && warp.firstEnd === undefined) {
    found.push(problem('warp.firstEnd', 'first-end-missing', 'nothing', 'slot, hole'));
  }
  if (loom.kind === 'shaft' && warp.firstEnd !== undefined) {
    found.push(problem('warp.firstEnd', 'first-end-not-for-shafts', warp.firstEnd, ''));
  }
  return [...found, ...checkWidth(warp, loom)];
});

function checkWidth(warp: Warp, loom: Loom): readonly Problem[] {
  const bound = countEnds(warp.order);
  if (bound > 2 * LIMITS.ends)
    return [problem('warp.order', 'too-many-ends', String(bound), String(LIMITS.ends))];
  const ends = warpEnds({ warp });
  const most = Math.floor(loom.weavingWidth * endsPerMm(loom) + 1e-6);
  if (ends > LIMITS.ends)
    return [problem('warp.order', 'too-many-ends', String(ends), String(LIMITS.ends))];
  if (ends > most) return [problem('warp.order', 'wider-than-loom', String(ends), String(most))];
  return [];
}

function checkStripe(yarns: Yarns, stripe: Stripe, path: string): readonly Problem[] {
  switch (stripe.kind) {
    case 'solid':
      return checkYarn(yarns, stripe.yarn, `${path}.yarn`);
    case 'alternation':
      return stripe.cycle.flatMap((turn, i) =>
        checkYarn(yarns, turn.yarn, `${path}.cycle[${i}].yarn`),
      );
    case 'repeat':
    case 'mirror':
      return stripe.of.flatMap((it, i) => checkStripe(yarns, it, `${path}.of[${i}]`));
  }
}

function problemsOfPiece(
  piece: Piece,
  path: string,
  yarns: Yarns,
  loom: LoomKind,
  working: Side,
): readonly Problem[] {
  const words = SHED_WORDS[loom];
  const found: Problem[] = [];
  if (!words.some((word) => word === piece.startShed)) {
    found.push(
      problem(`${path}.startShed`, 'shed-of-other-loom', piece.startShed, words.join(', ')),
    );
  }
  if (piece.beginning.kind === 'hemstitch' && (piece.startSide ?? working) !== working) {
    found.push(
      problem(
        `${path}.startSide`,
        'hemstitch-starts-at-working-side',
        String(piece.startSide),
        working,
      ),
    );
  }
  return [
    ...found,
    ...checkEdge(yarns, piece.beginning, `${path}.beginning`),
    ...checkEdge(yarns, piece.ending, `${path}.ending`),
    ...piece.weft.flatMap((block, i) => checkBlock(yarns, block, `${path}.weft[${i}]`)),
    ...piece.weft.flatMap((block, i) => checkFreeOnTop(block, `${path}.weft[${i}]`)),
  ];
}

const checkPiece = remembering(problemsOfPiece);

function checkEdge(yarns: Yarns, edge: Edge, path: string): readonly Problem[] {
  return edge.kind === 'hemstitch' ? [] : checkYarn(yarns, edge.yarn, `${path}.yarn`);
}

function checkBlock(yarns: Yarns, block: Block, path: string): readonly Problem[] {
  if (block.kind === 'repeat' || block.kind === 'mirror') {
    return block.of.flatMap((it, i) => checkBlock(yarns, it, `${path}.of[${i}]`));
  }
  const named = [
    ...Object.keys(block.resting ?? {}).flatMap((letter) =>
      checkYarn(yarns, letter, `${path}.resting.${letter}`),
    ),
    ...Object.keys(block.starts ?? {}).flatMap((letter) =>
      checkYarn(yarns, letter, `${path}.starts.${letter}`),
    ),
  ];
  if (block.kind === 'free') return named;
  if (block.kind === 'solid') return [...checkYarn(yarns, block.yarn, `${path}.yarn`), ...named];
  return [...checkAlternation(yarns, block, path), ...named];
}

/** What is woven by eye comes out another way each time: there is nothing to repeat or mirror. */
function checkFreeOnTop(block: Block, path: string): readonly Problem[] {
  if (block.kind !== 'repeat' && block.kind !== 'mirror') return [];
  return block.of.flatMap((it, i) => {
    const at = `${path}.of[${i}]`;
    return it.kind === 'free' ? [problem(at, 'free-in-group', 'free', '')] : checkFreeOnTop(it, at);
  });
}

function checkAlternation(yarns: Yarns, block: AlternationBlock, path: string): readonly Problem[] {
  const unknown = block.cycle.flatMap((turn, i) =>
    checkYarn(yarns, turn.yarn, `${path}.cycle[${i}].yarn`),
  );
  if (unknown.length > 0) return unknown;
  const cycle = block.cycle.map((turn) => turn.yarn);
  const letters = [...new Set(cycle)].join(', ');
  if (block.path === 'there-and-back' && cycle.length < 3) {
    return [problem(`${path}.path`, 'there-and-back-needs-three', String(cycle.length), 'round')];
  }
  const back = block.path === 'round' ? [] : block.cycle.slice(1, -1).reverse();
  const period = [...block.cycle, ...back];
  const twin = period.findIndex((turn, i) => turn.yarn === period[(i + 1) % period.length]?.yarn);
  if (twin >= 0) {
    const at = `${path}.cycle[${(twin + 1) % cycle.length}].yarn`;
    return [problem(at, 'cycle-neighbours-equal', period[twin]?.yarn ?? '', lettersOf(yarns))];
  }
  if (!cycle.includes(block.opens)) {
    return [problem(`${path}.opens`, 'opens-not-in-cycle', block.opens, letters)];
  }
  if (block.closes !== undefined && !cycle.includes(block.closes)) {
    return [problem(`${path}.closes`, 'closes-not-in-cycle', block.closes, letters)];
  }
  return checkTurns(block, period, path);
}

type Turn = AlternationBlock['cycle'][number];

/** Turns and picks that were typed must be whole turns and end on the closing yarn; lengths find their own. */
function checkTurns(
  block: AlternationBlock,
  period: readonly Turn[],
  path: string,
): readonly Problem[] {
  const { extent } = block;
  if (extent.kind === 'length') return [];
  const wanted = extent.kind === 'turns' ? extent.turns : extent.picks;
  const fits = fittingExtents(block, period, wanted);
  if (fits.exact) return [];
  const code = extent.kind === 'picks' && !fits.wholeTurns ? 'not-whole-turns' : 'does-not-close';
  return [problem(`${path}.extent.${extent.kind}`, code, String(wanted), fits.near.join(', '))];
}

/**
 * Whether an alternation may have this many turns (or picks), and which near it it may. Whole
 * periods are skipped, but two: the nearest below and above lie within what is left.
 */
function fittingExtents(block: AlternationBlock, period: readonly Turn[], wanted: number) {
  const weigh = (turn: Turn) => (block.extent.kind === 'turns' ? 1 : turn.picks);
  const whole = period.reduce((sum, turn) => sum + weigh(turn), 0);
  const first = Math.max(
    0,
    period.findIndex((turn) => turn.yarn === block.opens),
  );
  const ordered = [...period.slice(first), ...period.slice(0, first)];
  let total = Math.max(0, Math.floor(wanted / whole) - 2) * whole;
  let below: number | null = null;
  let wholeTurns = false;
  for (const turn of [...ordered, ...ordered, ...ordered, ...ordered, ...ordered]) {
    total += weigh(turn);
    if (total === wanted) wholeTurns = true;
    if (block.closes !== undefined && turn.yarn !== block.closes) continue;
    if (total === wanted) return { exact: true, wholeTurns, near: [] };
    if (total > wanted) {
      return { exact: false, wholeTurns, near: below === null ? [total] : [below, total] };
    }
    below = total;
  }
  throw new Error(`fittingExtents: nothing near ${wanted}`);
}

const laidBlocksOf = remembering((weft: readonly Block[]) => countLaidBlocks(weft));

/** A plan is laid out pick by pick, so its whole must stay within reason before anything is laid. */
function checkTotal(plan: Plan): readonly Problem[] {
  let laid = 0;
  for (const [i, piece] of plan.pieces.entries()) {
    laid += laidBlocksOf(piece.weft);
    if (laid <= LIMITS.laidBlocks) continue;
    return [problem(`pieces[${i}].weft`, 'too-long', String(laid), String(LIMITS.laidBlocks))];
  }
  const counts = onceAlike(plan.pieces, (piece) => countPicks(plan, piece));
  const picks = counts.reduce((sum, count) => sum + count, 0);
  if (picks <= LIMITS.totalPicks) return [];
  return [
    problem('pieces', 'too-many-picks', String(Math.round(picks)), String(LIMITS.totalPicks)),
  ];
}
