/** What each event does to the progress: one entry a kind. */
import { endFree, settled, thrownOf, woveLengthOf } from './byEye/throwing.ts';
import { blockSet, bobbinChanged, keepBlock, keepMirror, revised, weighed } from './changes.ts';
import { otherShed, placed, takenOut, thrown, thrownInTurn, woveLength } from './counting.ts';
import type { Happening, HappeningKind } from './events.ts';
import { measureHere, pinHere, refuseAim, strike } from './measuring.ts';
import type { Progress } from './progress.ts';
import { TOLD } from './undo.ts';

type Effect<K extends HappeningKind> = (
  progress: Progress,
  event: Extract<Happening, { readonly kind: K }>,
) => Progress;

const nothing = (progress: Progress) => progress;

const EFFECTS: { readonly [K in HappeningKind]: Effect<K> } = {
  thrown: (progress, { picks }) => thrown(progress, picks),
  takenOut: (progress, { picks }) => takenOut(progress, picks),
  woveLength: (progress, { loomLength }) => woveLength(progress, loomLength),
  thrownOf: (progress, { yarn, picks }) => thrownOf(progress, yarn, picks),
  woveLengthOf: (progress, { yarn, loomLength }) => woveLengthOf(progress, yarn, loomLength),
  freeEnded: endFree,
  otherShed,
  placed: (progress, { pick, shed, sides }) => placed(progress, pick, shed, sides),
  blockSet: (progress, { piece, block, picks }) => blockSet(progress, piece, block, picks),
  dueDone: (progress, { due }) => ({ ...progress, done: new Set([...progress.done, due]) }),
  dueDeferred: (progress, { due }) => ({
    ...progress,
    deferred: new Set([...progress.deferred, due]),
  }),
  advanced: (progress) => ({
    ...progress,
    advances: progress.advances + 1,
    advancedAt: progress.pick,
  }),
  warped: (progress, { steps, way }) => ({
    ...progress,
    warped: Math.max(0, progress.warped + steps),
    warpingWay: way ?? progress.warpingWay,
  }),
  cutOff: (progress) => ({ ...progress, cutOff: true }),
  pinned: (progress, { pin }) => pinHere(progress, pin),
  measured: (progress, { reading, loomLength, from, tension }) =>
    measureHere(progress, { reading, mm: loomLength, from, tension }),
  readingStruck: (progress, { reading }) => strike(progress, reading),
  aimRefused: (progress, { reading }) => refuseAim(progress, reading),
  blockKept: (progress, { piece, block, by }) => keepBlock(progress, piece, block, by),
  mirrorKept: (progress, { piece, by }) => keepMirror(progress, piece, by),
  revised: (progress, { from, pieces }) => revised(progress, from, pieces),
  weighed: (progress, { yarn, grams, tare }) => weighed(progress, yarn, grams - tare),
  bobbinChanged: (progress, { yarn }) => bobbinChanged(progress, yarn),
  undone: nothing,
  redone: nothing,
  clothRead: nothing,
  warpRead: nothing,
  endRavelled: nothing,
  learntFrom: nothing,
  noted: nothing,
  photographed: nothing,
};

/** One event more. Total: what makes no sense here, or has no known kind, changes nothing. */
export function happened(progress: Progress, event: Happening): Progress {
  return settled(folded(progress, event));
}

/** Events that leave the course alone, so that picks thrown by eye need not be laid for them. */
const BESIDE_THE_COURSE: ReadonlySet<HappeningKind> = new Set([
  'thrownOf',
  'thrown',
  'takenOut',
  'dueDone',
  'dueDeferred',
  'advanced',
  'warped',
  'cutOff',
  'weighed',
  'bobbinChanged',
  'undone',
  'redone',
  ...TOLD,
]);

/** The same within a log: picks thrown by eye may be gathered instead of laid, `settled` lays them. */
export function folded(before: Progress, event: Happening): Progress {
  const isBeside =
    BESIDE_THE_COURSE.has(event.kind) &&
    (event.kind !== 'takenOut' || event.picks <= (before.gathered?.picks ?? 0));
  const progress = isBeside ? before : settled(before);
  // A log from elsewhere may hold kinds that are none, such as the name of something every object has.
  if (!Object.hasOwn(EFFECTS, event.kind)) return progress;
  const effect = EFFECTS[event.kind] as Effect<HappeningKind>;
  return effect(progress, event);
}

/** A whole log, or a part of it. Picks thrown as planned come in long runs, and a run is one step. */
export function foldedAll(events: readonly Happening[], from: Progress): Progress {
  let progress = from;
  let run: number[] = [];
  for (const event of events) {
    if (event.kind === 'thrown') {
      run.push(event.picks);
      continue;
    }
    progress = folded(thrownInTurn(progress, run), event);
    if (run.length > 0) run = [];
  }
  return thrownInTurn(progress, run);
}
