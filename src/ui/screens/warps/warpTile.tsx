/** One warp: its picture, how far it is, and the one tap that resumes it. */
import { useState } from 'preact/hooks';
import { openIn } from '../../../core/bench/course.ts';
import { pickAt, pieceAt } from '../../../core/bench/pickAt.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import { lengthOfPiece } from '../../../core/bench/tape.ts';
import type { WarpRecord } from '../../../store/store.ts';
import { now, openJournal, openMeasure, openWarping, weave } from '../../actions.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { lazily } from '../../parts/lazily.tsx';
import { PiecePicture } from '../../parts/piecePicture.tsx';
import { whenWords } from '../../parts/when.ts';
import { printWarp } from '../../printing.ts';
import { type WarpCard, warpCards } from '../../state.ts';
import { RemoveSheet } from './lazyRemoveSheet.ts';

const TakeAlongSheet = lazily(
  async () => (await import('../../parts/share/takeAlongSheet.tsx')).TakeAlongSheet,
);

const planAnother = async (warp: string) => (await import('../../planning.ts')).planAnother(warp);

export function WarpTile({ card }: { readonly card: WarpCard }) {
  const { warp, progress, warpingSteps } = card;
  const [removing, setRemoving] = useState(false);
  return (
    <article class="warp-tile">
      {progress === null || isBlank(progress) ? null : (
        <PiecePicture course={progress.course} piece={pieceShown(progress)} woven={progress.pick} />
      )}
      <div class="warp-words">
        <h3>
          {warp.name}
          {warp.demo ? <span class="tag">{t('demo')}</span> : null}
        </h3>
        <p>
          {progress === null
            ? t('Its stored plan cannot be read by this version.')
            : progressWords(progress, warpingSteps)}
        </p>
        <Begun warp={warp} />
      </div>
      <div class="warp-buttons">
        {progress?.cutOff === true ? (
          <button type="button" class="button strong" onClick={() => void openMeasure(warp.id)}>
            {t('Measure')}
          </button>
        ) : null}
        {progress === null ? null : (
          <button
            type="button"
            class={progress.cutOff ? 'button' : 'button strong'}
            onClick={() => void weave(warp.id)}
          >
            {progress.pick === 0 ? t('Weave') : progress.cutOff ? t('Look') : t('Go on')}
          </button>
        )}
        {progress === null || (progress.pick === 0 && !progress.cutOff) ? null : (
          <button type="button" class="button" onClick={() => void openJournal(warp.id)}>
            {t('Journal')}
          </button>
        )}
        {progress === null || progress.pick > 0 || progress.cutOff ? null : (
          <button type="button" class="button" onClick={() => void openWarping(warp.id)}>
            {progress.warped === 0
              ? t('Warp it')
              : progress.warped >= warpingSteps
                ? t('Warping list')
                : t('Go on warping')}
          </button>
        )}
        <button type="button" class="button" onClick={() => void planAnother(warp.id)}>
          {t('Plan another')}
        </button>
        {progress === null ? null : <TakeAlong warp={warp} progress={progress} />}
        <button type="button" class="button quiet" onClick={() => setRemoving(true)}>
          {t('Remove')}
        </button>
      </div>
      {removing ? (
        <RemoveSheet
          title={t('Remove this warp?')}
          words={t('“{name}”, its plan and everything logged for it go from this device.', {
            name: warp.name,
          })}
          things={{ name: warp.name, warps: [warp], drafts: [] }}
          onClose={() => setRemoving(false)}
        />
      ) : null}
    </article>
  );
}

/** Several looms weave one plan, and their warps may come together here: then only the time tells them apart. */
function Begun({ warp }: { readonly warp: WarpRecord }) {
  const isAlone = warpCards.value?.every(
    ({ warp: { id, name } }) => id === warp.id || name !== warp.name,
  );
  if (isAlone !== false) return null;
  return <p class="hint">{t('begun {when}', { when: whenWords(warp.madeAt, new Date(now())) })}</p>;
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
        {t('Share or print')}
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
  return t('{name}: by eye, {n, plural, one {# pick} other {# picks}}, {length}', {
    name,
    n: pick - piece.firstPick,
    length: length(lengthOfPiece(course, piece, pick), course.plan.units),
  });
}

function progressWords(progress: Progress, warpingSteps: number): string {
  const { course, pick } = progress;
  const { units } = course.plan;
  if (pick === 0) return startWords(progress, warpingSteps);
  if (pick >= course.picks)
    return t(
      '{n, plural, one {# piece} other {# pieces}} woven, {picks, plural, one {# pick} other {# picks}}',
      { n: course.pieces.length, picks: course.picks },
    );
  const facts = pickAt(course, pick);
  const piece = pieceAt(course, pick);
  const name = course.plan.pieces[piece.index]?.name ?? '';
  if (openIn(course, piece) !== null) return openWords(progress, name);
  return t('{name}: pick {pick} of {picks}, at {length} of {whole}', {
    name,
    pick: (facts?.ofPiece ?? 0) + 1,
    picks: piece.picks,
    length: length(facts?.loomLength ?? 0, units),
    whole: length(piece.loomLength, units),
  });
}

/** Before the first pick. */
function startWords(progress: Progress, warpingSteps: number): string {
  const { course } = progress;
  const n = course.pieces.length;
  if (progress.warped > 0) return warpedWords(progress.warped, warpingSteps, n);
  if (course.open.length > 0)
    return t('{n, plural, one {# piece} other {# pieces}}, by eye', { n });
  const whole = course.pieces.reduce((sum, piece) => sum + piece.loomLength, 0);
  return t(
    '{n, plural, one {# piece} other {# pieces}}, {picks, plural, one {# pick} other {# picks}}, {length} on the loom',
    { n, picks: course.picks, length: length(whole, course.plan.units) },
  );
}

function warpedWords(done: number, steps: number, n: number): string {
  return done >= steps
    ? t('{n, plural, one {# piece} other {# pieces}}, the warp is on', { n })
    : t(
        '{n, plural, one {# piece} other {# pieces}}, warping: {done} of {steps, plural, one {# step} other {# steps}} done',
        { n, done, steps },
      );
}
