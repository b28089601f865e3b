/** Warping: the list a weaver warps from, ticked off step by step, at its place again at any time. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Viewpoint, WarpingStep, WarpingWay } from '../../../core/plan/warping/list.ts';
import { usualWay, warpingList } from '../../../core/plan/warping.ts';
import { sheetOf } from '../../../core/planner/sheet.ts';
import { showWarps, weave } from '../../actions.ts';
import { listenToPedals } from '../../device/pedals.ts';
import { keepAwake, letSleep } from '../../device/wakeLock.ts';
import { controlsHand, notice, type Session, session } from '../../state.ts';
import '../../style/weave.css';
import '../../style/stepCall.css';
import '../../style/warping.css';
import { t } from '../../language/t.ts';
import { Saved } from '../../parts/saved.tsx';
import { Before } from './before.tsx';
import { HeddleView } from './heddleView.tsx';
import { StepCall } from './stepCall.tsx';
import { StepList } from './stepList.tsx';
import type { Work } from './stepWords.ts';
import { startList, takeBack, tick } from './ticking.ts';
import { WaySheet } from './waySheet.tsx';
import { stepWords } from './words.ts';

export function WarpingScreen() {
  const now = session.value;
  return now === null ? null : <Warping key={now.warp.id} now={now} />;
}

function Warping({ now }: { readonly now: Session }) {
  const { work, way, look } = useWork(now);
  const [more, setMore] = useState(false);
  const done = Math.min(now.progress.warped, work.list.steps.length);
  const step = work.list.steps[done];
  const onTick = (timeStamp: number) => tick(timeStamp, work.list, way);
  useBench(onTick);
  return (
    <main class={`warping hand-${controlsHand.value}`}>
      <Head now={now} isDone={step === undefined} />
      {step === undefined ? (
        <WarpedCall work={work} />
      ) : (
        <StepCall work={work} step={step} done={done} />
      )}
      <div class={step?.phase === 'setup' ? 'warping-body is-setup' : 'warping-body'}>
        <div class={hasSlots(step) ? 'warping-picture' : 'warping-picture is-short'}>
          <HeddleView work={work} done={done} />
        </div>
        {step?.phase === 'setup' ? <Before work={work} /> : <StepList work={work} done={done} />}
      </div>
      <Foot work={work} done={done} onTick={onTick} onMore={() => setMore(true)} />
      {more ? (
        <WaySheet
          work={work}
          way={way}
          done={done}
          onSeenFrom={look}
          onClose={() => setMore(false)}
        />
      ) : null}
    </main>
  );
}

/** Whether the step is about some of the slots or ends, so that these are shown large. */
function hasSlots(step: WarpingStep | undefined): boolean {
  return step !== undefined && 'from' in step;
}

/** The list of this warp as its log says it is put on, and where the weaver stands now. */
function useWork({ plan, progress }: Session) {
  const logged = progress.warpingWay ?? usualWay(plan);
  const [seenFrom, setSeenFrom] = useState<Viewpoint | null>(null);
  const way: WarpingWay = { ...logged, seenFrom: seenFrom ?? logged.seenFrom };
  const { method, viewpoint } = logged;
  const warpLength = useMemo(() => sheetOf(plan).warpLength.wound, [plan]);
  const list = useMemo(
    () => warpingList(plan, { method, viewpoint, warpLength }),
    [plan, method, viewpoint, warpLength],
  );
  const look = (from: Viewpoint) => {
    setSeenFrom(from);
    // Nothing is warped yet: the list may as well begin at the weaver's left.
    if (progress.warped === 0) startList({ method, viewpoint: from, seenFrom: from });
  };
  const work: Work = { plan, list, seenFrom: way.seenFrom };
  return { work, way, look };
}

function useBench(onTick: (timeStamp: number) => void): void {
  const latest = useRef(onTick);
  latest.current = onTick;
  // Before the first paint, so that no press on what is seen goes astray.
  useLayoutEffect(
    () =>
      listenToPedals({
        onThrow: (timeStamp) => latest.current(timeStamp),
        onUndo: takeBack,
        listening: () => document.querySelector('dialog[open]') === null,
      }),
    [],
  );
  useEffect(() => {
    void keepAwake();
    return () => void letSleep();
  }, []);
}

function Head({ now, isDone }: { readonly now: Session; readonly isDone: boolean }) {
  return (
    <header class="weave-head">
      <button type="button" class="button quiet" onClick={() => void showWarps()}>
        {t('‹ Warps')}
      </button>
      <h1>
        <span class="of">{t('Warping')} </span>
        {now.warp.name}
      </h1>
      <Saved />
      <button
        type="button"
        class={isDone ? 'button strong' : 'button'}
        onClick={() => void weave(now.warp.id)}
      >
        {t('Weave')}
      </button>
    </header>
  );
}

function WarpedCall({ work }: { readonly work: Work }) {
  return (
    <section class="step-call" aria-label={t('The step to do')}>
      <p class="step-phase">
        {t('All {n, plural, one {# step} other {# steps}} done', { n: work.list.steps.length })}
      </p>
      <div class="step-main">
        <p class="step-yarn">
          <span class="step-name">{t('The warp is on')}</span>
        </p>
        <p class="step-amount">
          <span class="step-count">{work.list.ends}</span>
          <span class="step-unit">{t('ends')}</span>
        </p>
      </div>
      <p class="step-hands">
        {t('Tie on in front, and weave: tap the cloth, or a pedal, after each pick.')}
      </p>
    </section>
  );
}

interface FootProps {
  readonly work: Work;
  readonly done: number;
  readonly onTick: (timeStamp: number) => void;
  readonly onMore: () => void;
}

function Foot({ work, done, onTick, onMore }: FootProps) {
  const step = work.list.steps[done];
  return (
    <footer class="warping-foot">
      <p class="warping-notice" role="status">
        {notice.value}
      </p>
      <button type="button" class="button bench" onClick={takeBack}>
        <span class="bench-sign" aria-hidden="true">
          ↶
        </span>
        {t('Undo')}
      </button>
      {step === undefined ? (
        // Nothing to tap where Done was: a bounce of the last tick must not lead away from here.
        <p class="tick-rest">{t('Nothing left to tick. Weave is above.')}</p>
      ) : (
        <button
          type="button"
          class="button strong tick"
          onClick={(event) => {
            onTick(event.timeStamp);
            void keepAwake();
          }}
        >
          <span class="tick-word">{t('Done')}</span>
          <span class="tick-what">{tickWords(work, step)}</span>
        </button>
      )}
      <button type="button" class="button bench" onClick={onMore} aria-haspopup="dialog">
        <span class="bench-sign" aria-hidden="true">
          ⋯
        </span>
        {t('More')}
      </button>
    </footer>
  );
}

/** What the tick will stand for: nobody should have to look up for it. */
function tickWords(work: Work, step: WarpingStep): string {
  const { amount, place, title } = stepWords(work, step);
  return amount === null ? title : `${amount.count} ${amount.unit}, ${place}`;
}
