/** After the loom: what each piece became, what that taught, and how the wishes were met. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import { clothKindOf } from '../../../core/learn/clothKind.ts';
import { type Knowledge, knowledgeOf } from '../../../core/learn/knowledge.ts';
import { learntOf } from '../../../core/learn/learntWarp.ts';
import { summariesOf } from '../../../core/learn/summary.ts';
import { wishesMet } from '../../../core/planner/wishesMet.ts';
import { showWarps, turnTo, undo } from '../../actions.ts';
import { figures, keepWhatItTaught, woven } from '../../clothReading.ts';
import { t } from '../../language/t.ts';
import { knownOf, learntWarps, loadLearnt } from '../../learning.ts';
import { planAnother } from '../../planning.ts';
import { notice, type Session, session } from '../../state.ts';
import '../../style/fields.css';
import '../../style/afterLoom.css';
import { EndSheet } from './endSheet.tsx';
import { PieceCard } from './pieceCard.tsx';
import { ReadingSheet, type ReadPlace } from './readingSheet.tsx';
import { Taught } from './taught.tsx';
import { WarpPart, WarpSheet } from './warpSheet.tsx';
import { Wishes } from './wishes.tsx';

type Open =
  | { readonly kind: 'read'; readonly place: ReadPlace }
  | { readonly kind: 'end'; readonly piece: number }
  | { readonly kind: 'warp' };

export function MeasureScreen() {
  const [open, setOpen] = useState<Open | null>(null);
  // A reading at the fell since the last visit belongs to what the warp teaches.
  useEffect(() => void loadLearnt().then(keepWhatItTaught), []);
  const now = session.value;
  if (now === null) return null;
  return (
    <main class="column measure">
      <Head now={now} />
      <Pieces now={now} onOpen={setOpen} />
      <Sums now={now} onOpen={setOpen} />
      {open === null ? null : <OpenSheet open={open} now={now} onClose={() => setOpen(null)} />}
    </main>
  );
}

function Head({ now }: { readonly now: Session }) {
  return (
    <header class="column-head measure-head">
      <button type="button" class="button" onClick={() => void showWarps()}>
        {t('‹ Warps')}
      </button>
      <h1>{now.plan.name}</h1>
      <div class="measure-doors">
        <button
          type="button"
          class="button"
          onClick={() => {
            undo();
            keepWhatItTaught();
          }}
        >
          {t('↶ Undo')}
        </button>
        <button type="button" class="button" onClick={() => turnTo('journal')}>
          {t('Journal')}
        </button>
        <button type="button" class="button strong" onClick={() => void planAnother(now.warp.id)}>
          {t('Plan another')}
        </button>
      </div>
      <p class="notice" role="status">
        {notice.value}
      </p>
    </header>
  );
}

interface PartProps {
  readonly now: Session;
  readonly onOpen: (open: Open) => void;
}

/** Pieces side by side; what was never begun is not there to be measured. */
function Pieces({ now, onOpen }: PartProps) {
  const { pieces } = now.progress.course;
  return (
    <section class="measured-pieces" aria-label={t('Pieces')}>
      {pieces
        .filter((it) => it.firstPick < now.progress.pick)
        .map(({ index }) => {
          const piece = now.plan.pieces[index];
          const own = figures.value?.pieces[index];
          const readings = woven.value?.readings.pieces[index];
          return piece === undefined || own === undefined || readings === undefined ? null : (
            <PieceCard
              key={index}
              piece={piece}
              figures={own}
              readings={readings}
              units={now.plan.units}
              onRead={(place) => onOpen({ kind: 'read', place })}
              onRavel={(it) => onOpen({ kind: 'end', piece: it })}
            />
          );
        })}
    </section>
  );
}

function Sums({ now, onOpen }: PartProps) {
  const [teaches, all] = [woven.value, figures.value];
  const met = useMemo(
    () =>
      teaches === null || all === null ? [] : wishesMet(now.plan, all.pieces, teaches.readings),
    [now.plan, teaches, all],
  );
  if (teaches === null || all === null) return null;
  return (
    <div class="measure-sums">
      <Taught summaries={summariesOf(all)} known={knownHere(now)} demo={now.warp.demo} />
      <div class="measure-side">
        <Wishes plan={now.plan} met={met.filter((it) => isBegun(now, it.piece))} />
        <WarpPart
          plan={now.plan}
          warp={teaches.readings.warp}
          onRead={() => onOpen({ kind: 'warp' })}
        />
      </div>
    </div>
  );
}

function isBegun({ progress }: Session, piece: number): boolean {
  return (progress.course.pieces[piece]?.firstPick ?? 0) < progress.pick;
}

/** What all warps of this cloth say together; of a demo what it would say alone. */
function knownHere({ plan, warp }: Session): Knowledge | null {
  if (!warp.demo) return learntWarps.value === null ? null : knownOf(plan);
  const own = woven.value === null ? null : learntOf(warp.id, woven.value);
  return own === null ? null : knowledgeOf(clothKindOf(plan), [own]);
}

interface OpenSheetProps {
  readonly open: Open;
  readonly now: Session;
  readonly onClose: () => void;
}

function OpenSheet({ open, now, onClose }: OpenSheetProps) {
  const { plan } = now;
  if (open.kind === 'warp') return <WarpSheet plan={plan} onClose={onClose} />;
  const piece = open.kind === 'end' ? open.piece : open.place.piece;
  const readings = woven.value?.readings.pieces[piece];
  const name = plan.pieces[piece]?.name ?? '';
  if (readings === undefined) return null;
  const common = { name, units: plan.units, onClose };
  return open.kind === 'end' ? (
    <EndSheet {...common} piece={piece} readings={readings} />
  ) : (
    <ReadingSheet {...common} place={open.place} readings={readings.states[open.place.state]} />
  );
}
