/** One warp: its picture, how far it is, and the one tap that resumes it. */
import { useState } from 'preact/hooks';
import { openIn } from '../../../core/bench/course.ts';
import { pickAt, pieceAt } from '../../../core/bench/pickAt.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import { lengthOfPiece } from '../../../core/bench/tape.ts';
import { usualWay, warpingList } from '../../../core/plan/warping.ts';
import type { WarpRecord } from '../../../store/store.ts';
import { openJournal, openMeasure, openWarping, weave } from '../../actions.ts';
import { count, length } from '../../format.ts';
import { lazily } from '../../parts/lazily.tsx';
import { PiecePicture } from '../../parts/piecePicture.tsx';
import { planAnother } from '../../planning.ts';
import { printWarp } from '../../printing.ts';
import type { WarpCard } from '../../state.ts';
import { RemoveSheet } from './removeSheet.tsx';

const TakeAlongSheet = lazily(
  async () => (await import('../../parts/share/takeAlongSheet.tsx')).TakeAlongSheet,
);

export function WarpTile({ card }: { readonly card: WarpCard }) {
  const { warp, progress } = card;
  const [removing, setRemoving] = useState(false);
  return (
    <article class="warp-tile">
      {progress === null || isBlank(progress) ? null : (
        <PiecePicture course={progress.course} piece={pieceShown(progress)} woven={progress.pick} />
      )}
      <div class="warp-words">
        <h3>
          {warp.name}
          {warp.demo ? <span class="tag">demo</span> : null}
        </h3>
        <p>
          {progress === null
            ? 'Its stored plan cannot be read by this version.'
            : progressWords(progress)}
        </p>
      </div>
      <div class="warp-buttons">
        {progress?.cutOff === true ? (
          <button type="button" class="button strong" onClick={() => void openMeasure(warp.id)}>
            Measure
          </button>
        ) : null}
        {progress === null ? null : (
          <button
            type="button"
            class={progress.cutOff ? 'button' : 'button strong'}
            onClick={() => void weave(warp.id)}
          >
            {progress.pick === 0 ? 'Weave' : progress.cutOff ? 'Look' : 'Go on'}
          </button>
        )}
        {progress === null || (progress.pick === 0 && !progress.cutOff) ? null : (
          <button type="button" class="button" onClick={() => void openJournal(warp.id)}>
            Journal
          </button>
        )}
        {progress === null || progress.pick > 0 || progress.cutOff ? null : (
          <button type="button" class="button" onClick={() => void openWarping(warp.id)}>
            {progress.warped === 0
              ? 'Warp it'
              : isWarped(progress)
                ? 'Warping list'
                : 'Go on warping'}
          </button>
        )}
        <button type="button" class="button" onClick={() => void planAnother(warp.id)}>
          Plan another
        </button>
        {progress === null ? null : <TakeAlong warp={warp} progress={progress} />}
        <button type="button" class="button quiet" onClick={() => setRemoving(true)}>
          Remove
        </button>
      </div>
      {removing ? (
        <RemoveSheet
          title="Remove this warp?"
          words={`“${warp.name}”, its plan and everything logged for it go from this device.`}
          things={{ name: warp.name, warps: [warp], drafts: [] }}
          onClose={() => setRemoving(false)}
        />
      ) : null}
    </article>
  );
}

interface TakeAlongProps {
  readonly warp: WarpRecord;
  readonly progress: Progress;
}

function TakeAlong({ warp, progress }: TakeAlongProps) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <button type="button" class="button" onClick={() => setOpen(true)}>
        Share or print
      </button>
      {open ? (
        <TakeAlongSheet
          plan={progress.course.plan}
          warp={warp}
          onPrint={() => printWarp(progress)}
          onClose={() => setOpen(false)}
        />
      ) : null}
    </>
  );
}

/** By eye there is nothing to see before the first pick. */
function isBlank({ course, pick }: Progress): boolean {
  return pick === 0 && course.open[0] === 0;
}

/** The piece at the fell; while nothing of it is thrown by eye the one before it. */
function pieceShown({ course, pick }: Progress): number {
  const { index, firstPick } = pieceAt(course, pick);
  return pick === firstPick && course.open.includes(pick) ? Math.max(0, index - 1) : index;
}

/** How far a piece is that is woven by eye, wholly or from some pick on. */
function openWords({ course, pick }: Progress, name: string): string {
  const piece = pieceAt(course, pick);
  const done = count(pick - piece.firstPick, 'pick');
  const at = length(lengthOfPiece(course, piece, pick), course.plan.units);
  return `${name}: by eye, ${done}, ${at}`;
}

function progressWords(progress: Progress): string {
  const { course, pick } = progress;
  const { units } = course.plan;
  const pieces = count(course.pieces.length, 'piece');
  const whole = course.pieces.reduce((sum, piece) => sum + piece.loomLength, 0);
  if (pick === 0 && progress.warped > 0) return `${pieces}, ${warpedWords(progress)}`;
  if (pick === 0 && course.open.length > 0) return `${pieces}, by eye`;
  if (pick === 0)
    return `${pieces}, ${count(course.picks, 'pick')}, ${length(whole, units)} on the loom`;
  if (pick >= course.picks) return `${pieces} woven, ${count(course.picks, 'pick')}`;
  const facts = pickAt(course, pick);
  const piece = pieceAt(course, pick);
  const name = course.plan.pieces[piece.index]?.name ?? '';
  if (openIn(course, piece) !== null) return openWords(progress, name);
  return `${name}: pick ${(facts?.ofPiece ?? 0) + 1} of ${piece.picks}, at ${length(facts?.loomLength ?? 0, units)} of ${length(piece.loomLength, units)}`;
}

/** Steps of the warping list, however long the warp will be. */
function stepsOf({ course: { plan }, warpingWay }: Progress): number {
  return warpingList(plan, { ...(warpingWay ?? usualWay(plan)), warpLength: 0 }).steps.length;
}

const isWarped = (progress: Progress) => progress.warped >= stepsOf(progress);

function warpedWords(progress: Progress): string {
  const steps = stepsOf(progress);
  return progress.warped >= steps
    ? 'the warp is on'
    : `warping: ${progress.warped} of ${count(steps, 'step')} done`;
}
