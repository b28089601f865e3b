/**
 * What is due: things to do now that are not picks. The list follows from the course alone; which of
 * it is done or put off is in the log. Each is due *before* pick `at` is thrown.
 */

import { type Groups, shareIntoGroups } from '../measure/groups.ts';
import type { Mm } from '../measure/length.ts';
import { gapAfter, hemOnLoom, stitchTail, warpEnds } from '../plan/geometry.ts';
import type { Edge, Plan, Side } from '../plan/plan.ts';
import type { Course, CoursePiece } from './course.ts';
import { EDGES, sideOf } from './stripes.ts';

export type Due = DueHead & DueTask;

interface DueHead {
  /** Names the due in the log; survives changes of the blocks before it. */
  readonly id: string;
  readonly at: number;
  /** From this pick on it is too late and the card goes by itself. */
  readonly until: number;
  readonly piece: number;
}

export type DueTask =
  | { readonly kind: 'tail'; readonly length: Mm; readonly side: Side }
  | {
      readonly kind: 'hemstitch';
      readonly edge: 'beginning' | 'ending';
      readonly groups: Groups;
      readonly side: Side;
    }
  | {
      readonly kind: 'endTail';
      readonly length: Mm;
      readonly side: Side;
      readonly wrongSide: boolean;
    }
  | { readonly kind: 'hemBegins'; readonly loomLength: Mm; readonly yarn: number }
  | { readonly kind: 'hemEnds'; readonly yarn: number }
  | { readonly kind: 'lockEdge'; readonly places: number; readonly yarns: readonly number[] }
  | { readonly kind: 'cutYarns'; readonly yarns: readonly number[] }
  | { readonly kind: 'gap'; readonly length: Mm }
  | { readonly kind: 'cutOff' };

/** Every due of a course in weaving order. */
export function duesOf(course: Course): readonly Due[] {
  const stitching = stitchingOf(course.plan);
  return course.pieces.flatMap((piece) => duesOfPiece(course, piece, stitching));
}

/** The same where only some pieces of the course have changed. */
export function duesAgain(
  dues: readonly Due[],
  course: Course,
  changed: readonly CoursePiece[],
): readonly Due[] {
  const stitching = stitchingOf(course.plan);
  const here = new Set(changed.map(({ index }) => index));
  return course.pieces.flatMap((piece) =>
    here.has(piece.index)
      ? duesOfPiece(course, piece, stitching)
      : dues.filter((due) => due.piece === piece.index),
  );
}

function duesOfPiece(course: Course, piece: CoursePiece, stitching: Stitching): readonly Due[] {
  return [
    ...beginningDues(course, piece, stitching),
    ...edgeDues(course, piece),
    ...endingDues(course, piece, stitching),
  ].sort((a, b) => a.at - b.at);
}

/** What every hemstitched edge of a warp has in common: worked out once, for it counts all ends. */
interface Stitching {
  readonly tail: Mm;
  readonly groups: Groups;
}

function stitchingOf(plan: Plan): Stitching {
  const groups = shareIntoGroups(warpEnds(plan), plan.weaving.stitchGroup);
  return { tail: stitchTail(plan), groups };
}

function beginningDues(course: Course, piece: CoursePiece, stitching: Stitching): readonly Due[] {
  const edge = course.plan.pieces[piece.index]?.beginning;
  if (edge === undefined || piece.picks === 0) return [];
  if (edge.kind === 'hemstitch') return stitchedBeginning(course, piece, stitching);
  return edge.kind === 'hem' && edge.washedAllowance > 0 ? hemBeginning(course, piece, edge) : [];
}

function stitchedBeginning(
  course: Course,
  piece: CoursePiece,
  stitching: Stitching,
): readonly Due[] {
  const { plan } = course;
  const { workingSide: side, picksBeforeStitching } = plan.weaving;
  const at = piece.firstPick + Math.min(picksBeforeStitching, piece.picks);
  const until = Math.max(at + 1, piece.firstPick + piece.picks);
  const tail = { kind: 'tail', length: stitching.tail, side } as const;
  const stitch = { kind: 'hemstitch', edge: 'beginning', groups: stitching.groups, side } as const;
  const head = { piece: piece.index };
  return [
    { ...head, ...tail, id: dueId(piece, 'tail'), at: piece.firstPick, until: at },
    { ...head, ...stitch, id: dueId(piece, 'hemstitch-beginning'), at, until },
  ];
}

function hemBeginning(course: Course, piece: CoursePiece, edge: Edge): readonly Due[] {
  const block = course.blocks[piece.firstBlock];
  if (block === undefined) return [];
  const at = block.firstPick;
  const ends = at + block.picks;
  const yarn = block.laid.period.yarns[0] ?? 0;
  const begins = { kind: 'hemBegins', loomLength: hemOnLoom(course.plan, edge), yarn } as const;
  const head = { piece: piece.index, yarn };
  const until = ends + SHORT_LIFE;
  return [
    { ...head, ...begins, id: dueId(piece, 'hem-begins-beginning'), at, until: ends },
    { ...head, kind: 'hemEnds', id: dueId(piece, 'hem-ends-beginning'), at: ends, until },
  ];
}

/** A note that a boundary was passed need not wait longer than a few picks. */
const SHORT_LIFE = 12;

/** One card a planned block where the edge end is not caught, gone with the pick where it is only once. */
function edgeDues(course: Course, piece: CoursePiece): readonly Due[] {
  const { stripes, turns, blocks } = course;
  const range = stripes.ofPieces[piece.index];
  if (range === undefined) return [];
  const found = new Map<number, { at: number; places: number; yarns: Set<number> }>();
  const notCaught = EDGES.indexOf('not-caught');
  for (let r = range.firstStripe; r < range.firstStripe + range.stripes; r++) {
    if (stripes.edge[r] !== notCaught) continue;
    const block = turns.block[stripes.firstTurn[r] ?? 0] ?? 0;
    // By eye each yarn says so before it is thrown; afterwards it is too late.
    if (blocks[block]?.laid.role === 'free') continue;
    const at = stripes.firstPick[r] ?? 0;
    const entry = found.get(block) ?? { at, places: 0, yarns: new Set<number>() };
    entry.places++;
    entry.yarns.add(stripes.yarn[r] ?? 0);
    found.set(block, entry);
  }
  return [...found].map(([block, { at, places, yarns }]) => ({
    id: `${piece.index}/lock-edge/${block - piece.firstBlock}`,
    kind: 'lockEdge' as const,
    at,
    until: places === 1 ? at + 1 : (blocks[block]?.firstPick ?? 0) + (blocks[block]?.picks ?? 0),
    piece: piece.index,
    places,
    yarns: [...yarns],
  }));
}

function endingDues(course: Course, piece: CoursePiece, stitching: Stitching): readonly Due[] {
  const { plan } = course;
  const edge = plan.pieces[piece.index]?.ending;
  if (edge === undefined || piece.picks === 0) return [];
  const end = piece.firstPick + piece.picks;
  const last = piece.index === course.pieces.length - 1;
  const nextPiece = course.pieces[piece.index + 1];
  const head = {
    at: end,
    until: last ? Number.POSITIVE_INFINITY : end + (nextPiece?.picks ?? 0),
    piece: piece.index,
  };
  const hem = edge.kind === 'hem' && edge.washedAllowance > 0 ? hemEnding(course, piece, end) : [];
  const stitched = edge.kind === 'hemstitch' ? stitchedEnding(course, piece, head, stitching) : [];
  const after: readonly Due[] = last
    ? [{ ...head, id: dueId(piece, 'cut-off'), kind: 'cutOff' }]
    : [
        {
          ...head,
          id: dueId(piece, 'gap'),
          kind: 'gap',
          length: gapAfter(plan, piece.index),
          until: end + SHORT_LIFE,
        },
      ];
  const cut: readonly Due[] = last
    ? []
    : [
        {
          ...head,
          id: dueId(piece, 'cut-yarns'),
          kind: 'cutYarns',
          yarns: [yarnToCut(course, piece)],
          until: end + SHORT_LIFE,
        },
      ];
  return [...hem, ...stitched, ...cut, ...after];
}

function hemEnding(course: Course, piece: CoursePiece, end: number): readonly Due[] {
  const block = course.blocks[piece.firstBlock + piece.blocks - 1];
  const edge = course.plan.pieces[piece.index]?.ending;
  if (block === undefined || edge === undefined) return [];
  const yarn = block.laid.period.yarns[0] ?? 0;
  const head = {
    piece: piece.index,
    kind: 'hemBegins' as const,
    yarn,
    loomLength: hemOnLoom(course.plan, edge),
  };
  return [{ ...head, id: dueId(piece, 'hem-begins-ending'), at: block.firstPick, until: end }];
}

/** The tail falls where the last pick ended; where that is not the working side one pick more mends it. */
function stitchedEnding(
  course: Course,
  piece: CoursePiece,
  head: Omit<DueHead, 'id'>,
  stitching: Stitching,
): readonly Due[] {
  const { plan, stripes } = course;
  const range = stripes.ofPieces[piece.index];
  const lastStripe = range === undefined ? 0 : range.firstStripe + range.stripes - 1;
  const side = sideOf(stripes.restSide[lastStripe] ?? 0);
  const wrongSide = side !== plan.weaving.workingSide;
  return [
    {
      ...head,
      id: dueId(piece, 'end-tail'),
      kind: 'endTail',
      length: stitching.tail,
      side,
      wrongSide,
    },
    {
      ...head,
      id: dueId(piece, 'hemstitch-ending'),
      kind: 'hemstitch',
      edge: 'ending',
      groups: stitching.groups,
      side,
    },
  ];
}

/** The yarn still joined to the cloth: the others were cut when they were done (the call said so). */
function yarnToCut(course: Course, piece: CoursePiece): number {
  const { stripes } = course;
  const range = stripes.ofPieces[piece.index];
  return range === undefined ? 0 : (stripes.yarn[range.firstStripe + range.stripes - 1] ?? 0);
}

function dueId(piece: CoursePiece, name: string): string {
  return `${piece.index}/${name}`;
}
