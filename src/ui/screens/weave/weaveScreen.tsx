/** The view from the bench. */
import { useLayoutEffect, useState } from 'preact/hooks';
import { nextDue } from '../../../core/bench/openDues.ts';
import { type PickFacts, pieceAt } from '../../../core/bench/pickAt.ts';
import { showWarps, throwPick, undo } from '../../actions.ts';
import { isNarrow } from '../../device/narrow.ts';
import { listenToPedals } from '../../device/pedals.ts';
import { t } from '../../language/t.ts';
import { controlsHand, facts, factsOf, notice, type Session, session } from '../../state.ts';
import '../../style/call.css';
import '../../style/distance.css';
import '../../style/gloves.css';
import '../../style/due.css';
import '../../style/scene.css';
import '../../style/weave.css';
import { lazily } from '../../parts/lazily.tsx';
import { Saved } from '../../parts/saved.tsx';
import { still } from '../../parts/still.ts';
import { useBehind } from '../../parts/useBehind.ts';
import { Call, WovenCall } from './call.tsx';
import { LeftLine } from './left/lazyLeftLine.ts';
import type { Page } from './moreSheet.tsx';
import { aheadWords, isByEye, nextWords } from './pickWords.ts';
import { Scene } from './scene.tsx';
import { Tape } from './tape.tsx';

const DueCard = lazily(async () => (await import('./dueCard.tsx')).DueCard);
const MoreSheet = lazily(async () => (await import('./moreSheet.tsx')).MoreSheet);
const ByEyeBar = lazily(async () => (await import('./byEye/byEyeBar.tsx')).ByEyeBar);
const AtHand = lazily(async () => (await import('../../hearing/atHand.tsx')).AtHand);
const CutOffCard = lazily(async () => (await import('../measure/cutOffCard.tsx')).CutOffCard);

export function WeaveScreen() {
  const now = session.value;
  const [more, setMore] = useState<Page | null>(null);
  // Before the first paint, so that no press on what is seen goes astray.
  useLayoutEffect(
    () =>
      listenToPedals({
        onThrow: throwPick,
        onUndo: undo,
        listening: () => document.querySelector('dialog[open]') === null,
      }),
    [],
  );
  if (now === null) return null;
  return (
    <main class={`weave hand-${controlsHand.value}`}>
      <Above now={now} onMore={setMore} />
      {facts.value === null ? (
        <WovenCall now={now} />
      ) : (
        <Call plan={now.plan} facts={facts.value} />
      )}
      <Scene now={now} />
      <Below now={now} onMore={setMore} />
      <AtHand now={now} />
      {more === null ? null : <MoreSheet now={now} first={more} onClose={() => setMore(null)} />}
    </main>
  );
}

interface PartProps {
  readonly now: Session;
  readonly onMore: (page: Page) => void;
}

/** What the eye comes to after call and cloth is painted in the frame behind theirs. */
function Above({ now, onMore }: PartProps) {
  return <Head now={useBehind(now)} onMore={onMore} />;
}

function Below({ now, onMore }: PartProps) {
  return <TapeAndFoot now={useBehind(now)} onMore={onMore} />;
}

const TapeAndFoot = still(({ now, onMore }: PartProps) => (
  <>
    <Tape
      now={now}
      onMeasure={() => onMore('measure')}
      onLeft={() => onMore('left')}
      onEndings={() => onMore('endings')}
    />
    <Foot now={now} onMore={onMore} />
  </>
));

const Head = still(({ now, onMore }: PartProps) => {
  const { course, pick } = now.progress;
  const piece = pieceAt(course, pick);
  const of = course.pieces.length;
  return (
    <header class="weave-head">
      <button type="button" class="button quiet" onClick={() => void showWarps()}>
        {t('‹ Warps')}
      </button>
      <h1>
        {now.plan.pieces[piece.index]?.name}
        {of > 1 ? <span class="of">{t(' · {n} of {of}', { n: piece.index + 1, of })}</span> : null}
      </h1>
      {isNarrow.value ? null : <LeftLine now={now} onOpen={() => onMore('left')} />}
      <Saved />
    </header>
  );
});

function Foot({ now, onMore }: PartProps) {
  const here = factsOf(now.progress);
  return (
    <footer class="weave-foot">
      {now.progress.cutOff ? (
        <CutOffCard now={now} />
      ) : (
        <DueCard plan={now.plan} progress={now.progress} />
      )}
      <button type="button" class="button bench" onClick={undo}>
        <span class="bench-sign" aria-hidden="true">
          ↶
        </span>
        {t('Undo')}
      </button>
      {here === null ? (
        <p class="next">{notice.value}</p>
      ) : isByEye(here) ? (
        <ByEyeBar now={now} onMore={() => onMore('eye')} />
      ) : (
        <Next now={now} facts={here} />
      )}
      <button
        type="button"
        class="button bench"
        onClick={() => onMore('menu')}
        aria-haspopup="dialog"
      >
        <span class="bench-sign" aria-hidden="true">
          ⋯
        </span>
        {t('More')}
      </button>
    </footer>
  );
}

function Next({ now, facts }: { readonly now: Session; readonly facts: PickFacts }) {
  const ahead = aheadWords(now.plan, facts, nextDue(now.progress));
  return (
    <p class="next">
      <span>{nextWords(now.plan, facts)}</span>
      <span class={notice.value === null ? 'ahead' : 'ahead told'} role="status">
        {notice.value ?? ahead}
      </span>
    </p>
  );
}
