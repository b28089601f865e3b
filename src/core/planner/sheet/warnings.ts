/** What goes wrong at the edges of a plan, said while it is being planned (design §4). */
import type { Course, CoursePiece } from '../../bench/course.ts';
import { EDGES, REST_KINDS, sideOf } from '../../bench/stripes.ts';
import type { Mm } from '../../measure/length.ts';
import type { EdgeWarning } from '../sheet.ts';

const NOT_CAUGHT = EDGES.indexOf('not-caught');
const FLOAT = REST_KINDS.indexOf('float');
const CUT = REST_KINDS.indexOf('cut');

/** Floats are compared with the carry limit as the bench compares them. */
const TOLERANCE: Mm = 1e-9;

/** Every warning of a course, piece by piece; one a block of the plan, however often it is woven. */
export function edgeWarnings(course: Course): readonly EdgeWarning[] {
  return course.pieces.flatMap((piece) => [
    ...uncaughtEdges(course, piece),
    ...restWarnings(course, piece),
    ...tailWarning(course, piece),
  ]);
}

interface Uncaught {
  readonly yarns: Set<number>;
  places: number;
}

function uncaughtEdges(course: Course, piece: CoursePiece): readonly EdgeWarning[] {
  const { stripes, turns } = course;
  const found = new Map<string, Uncaught>();
  let block = -1;
  let entry: Uncaught | null = null;
  const end = piece.firstStripe + piece.stripes;
  for (let r = piece.firstStripe; r < end; r++) {
    if (stripes.edge[r] !== NOT_CAUGHT) continue;
    const at = turns.block[stripes.firstTurn[r] ?? 0] ?? 0;
    if (entry === null || at !== block) {
      block = at;
      const path = pathOf(course, at);
      entry = found.get(path) ?? { yarns: new Set(), places: 0 };
      found.set(path, entry);
    }
    entry.places++;
    entry.yarns.add(stripes.yarn[r] ?? 0);
  }
  const floatingSelvedges = course.plan.warp.floatingSelvedges !== undefined;
  return [...found].map(([path, { yarns, places }]) => ({
    kind: 'edge-not-caught',
    piece: piece.index,
    path,
    yarns: [...yarns],
    places,
    floatingSelvedges,
  }));
}

type RestWarning = Extract<EdgeWarning, { longest: Mm }>;

function restWarnings(course: Course, piece: CoursePiece): readonly EdgeWarning[] {
  const { stripes, turns, plan } = course;
  const limit = plan.weaving.carryLimit + TOLERANCE;
  const found = new Map<string, RestWarning>();
  const end = piece.firstStripe + piece.stripes;
  for (let r = piece.firstStripe; r < end; r++) {
    const rest = stripes.rest[r];
    if (rest !== FLOAT && rest !== CUT) continue;
    const next = stripes.next[r] ?? 0;
    const back = turns.loomStart[stripes.firstTurn[next] ?? 0] ?? 0;
    const length = back - (turns.loomStart[stripes.firstTurn[r + 1] ?? 0] ?? 0);
    if (length <= limit || (rest === CUT && isExpected(course, r, next))) continue;
    const kind = rest === CUT ? 'cut-for-length' : 'long-float';
    const path = pathOf(course, turns.block[(stripes.firstTurn[r + 1] ?? 1) - 1] ?? 0);
    const yarn = stripes.yarn[r] ?? 0;
    const key = `${kind} ${yarn} ${path}`;
    const { places, longest } = found.get(key) ?? { places: 0, longest: 0 };
    found.set(key, {
      kind,
      piece: piece.index,
      path,
      yarn,
      places: places + 1,
      longest: Math.max(longest, length),
    });
  }
  return [...found.values()];
}

/** A cut is no news where plan or yarn ask for it, or where a hem has a yarn of its own. */
function isExpected(
  { plan, blocks, turns, stripes }: Course,
  before: number,
  after: number,
): boolean {
  const yarn = plan.yarns[stripes.yarn[before] ?? 0];
  const blockOf = (turn: number) => blocks[turns.block[turn] ?? -1]?.laid.block;
  const around = [
    blockOf(stripes.firstTurn[after] ?? 0),
    blockOf((stripes.firstTurn[before + 1] ?? 1) - 1),
  ];
  return (
    yarn?.resting !== undefined ||
    around.some((block) => !block || block.resting?.[yarn?.letter ?? ''] !== undefined)
  );
}

function pathOf(course: Course, block: number): string {
  return course.blocks[block]?.laid.source ?? '';
}

/** The tail for stitching falls where the last pick ends; wrong where stitching starts elsewhere. */
function tailWarning(course: Course, piece: CoursePiece): readonly EdgeWarning[] {
  const { plan, stripes } = course;
  if (piece.stripes === 0 || plan.pieces[piece.index]?.ending.kind !== 'hemstitch') return [];
  const side = sideOf(stripes.restSide[piece.firstStripe + piece.stripes - 1] ?? 0);
  if (side === plan.weaving.workingSide) return [];
  const path = `pieces[${piece.index}].ending`;
  return [{ kind: 'tail-wrong-side', piece: piece.index, path, side }];
}
