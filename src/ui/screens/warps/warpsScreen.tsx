/** Warps: what is on the loom, what is planned, what is done. One tap resumes at the last pick. */
import { useState } from 'preact/hooks';
import { showKeepSafe, showYarns } from '../../actions.ts';
import { showMotifs } from '../../motifPages.ts';
import { notice, refusal, type WarpCard, warpCards } from '../../state.ts';
import '../../style/warps.css';
import { t } from '../../language/t.ts';
import { LanguageChoice } from '../../parts/languageChoice.tsx';
import { lazily } from '../../parts/lazily.tsx';
import { askAllWords } from '../../parts/words.tsx';
import { BranchChoices } from './branchChoices.tsx';
import { DemoOffers } from './demoOffers.tsx';
import { DraftTiles } from './draftTiles.tsx';
import { FirstVisit, WalkAgain } from './firstVisit.tsx';
import { OpenPlan, ScanPlan } from './openPlan.tsx';
import { openPlanFile } from './openPlanFile.ts';
import { PutBackOffer } from './putBackOffer.tsx';
import { Reminder } from './reminder.tsx';
import { RoomWarning } from './roomWarning.tsx';
import { StartByEye } from './startByEye.tsx';
import { UpdateOffer } from './updateOffer.tsx';
import { WarpTile } from './warpTile.tsx';

const RefusalSheet = lazily(async () => (await import('./refusalSheet.tsx')).RefusalSheet);

const beginPlanning = async () => (await import('../../planning.ts')).beginPlanning();

const GROUPS = ['loom', 'planned', 'done', 'unreadable'] as const;
type Group = (typeof GROUPS)[number];
const TITLES: Record<Group, string> = {
  loom: t('On the loom'),
  planned: t('Planned'),
  // A word of its own: of warps, not of a step.
  done: t('{of, select, warps {Done} other {Done}}', { of: 'warps' }),
  unreadable: t('Cannot be read'),
};

export function WarpsScreen() {
  const [dragging, setDragging] = useState(false);
  const cards = warpCards.value ?? [];
  return (
    <main
      class="column warps"
      data-dragging={dragging}
      onDragOver={(event) => {
        event.preventDefault();
        setDragging(true);
      }}
      onDragLeave={() => setDragging(false)}
      onDrop={(event) => {
        event.preventDefault();
        setDragging(false);
        const file = event.dataTransfer?.files[0];
        if (file !== undefined) void openPlanFile(file);
      }}
    >
      <header class="warps-head">
        <div class="warps-title">
          {/* not for a reader to translate */}
          <h1>Fellmark</h1>
          <button type="button" class="button" onClick={askAllWords}>
            {t('Words')}
          </button>
        </div>
        <div class="warps-doors">
          <button type="button" class="button strong" onClick={() => void beginPlanning()}>
            {t('Plan a warp')}
          </button>
          <StartByEye />
          <button type="button" class="button" onClick={showYarns}>
            {t('Yarns')}
          </button>
          <button type="button" class="button" onClick={showMotifs}>
            {t('Motifs')}
          </button>
          <button type="button" class="button" onClick={showKeepSafe}>
            {t('Keep safe')}
          </button>
          <OpenPlan />
          <ScanPlan />
        </div>
      </header>
      <UpdateOffer />
      <RoomWarning />
      {isBeforeTheFirst(cards) ? <FirstVisit /> : null}
      <PutBackOffer />
      <Reminder cards={cards} />
      <BranchChoices cards={cards} />
      {notice.value === null ? null : (
        <p class="notice" role="status">
          {notice.value}
        </p>
      )}
      {GROUPS.map((group) => (
        <WarpGroup
          key={group}
          title={TITLES[group]}
          cards={cards.filter((card) => groupOf(card) === group)}
        />
      ))}
      <DraftTiles />
      <DemoOffers first={cards.length === 0} />
      {isBeforeTheFirst(cards) ? <WalkAgain /> : null}
      <LanguageChoice />
      {refusal.value === null ? null : <RefusalSheet refusal={refusal.value} />}
    </main>
  );
}

/** Nothing of the weaver's own is kept here yet. */
const isBeforeTheFirst = (cards: readonly WarpCard[]) =>
  warpCards.value !== null && cards.every(({ warp }) => warp.demo);

function groupOf({ progress }: WarpCard): Group {
  if (progress === null) return 'unreadable';
  if (progress.cutOff) return 'done';
  return progress.pick > 0 ? 'loom' : 'planned';
}

function WarpGroup({
  title,
  cards,
}: {
  readonly title: string;
  readonly cards: readonly WarpCard[];
}) {
  if (cards.length === 0) return null;
  const newestFirst = [...cards].sort((a, b) => lastTouched(b).localeCompare(lastTouched(a)));
  return (
    <section class="warps-group">
      <h2>{title}</h2>
      {newestFirst.map((card) => (
        <WarpTile key={card.warp.id} card={card} />
      ))}
    </section>
  );
}

const lastTouched = ({ warp }: WarpCard) => warp.wovenAt ?? warp.madeAt;
