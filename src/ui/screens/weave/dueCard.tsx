/** What is due: a card that waits below the cloth and never stands in the way of the count. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Due } from '../../../core/bench/dues.ts';
import { type OpenDue, openDues } from '../../../core/bench/openDues.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { happen } from '../../actions.ts';
import { t } from '../../language/t.ts';
import { lazily } from '../../parts/lazily.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { dueWords } from './dueWords.ts';

const PlaceSheet = lazily(async () => (await import('./placeSheet.tsx')).PlaceSheet);

export function DueCard({ plan, progress }: { readonly plan: Plan; readonly progress: Progress }) {
  const [looking, setLooking] = useState(false);
  const [listing, setListing] = useState(false);
  const due = useMemo(() => openDues(progress), [progress]);
  const open = due.filter((it) => !it.deferred);
  const waiting = due.length - open.length;
  const first = open[0];
  // With nothing left in it the list is closed, and must not open by itself for the next.
  useEffect(() => {
    if (waiting === 0) setListing(false);
  }, [waiting]);
  return (
    <div class="dues">
      {first === undefined ? null : (
        <DueBody
          key={first.id}
          plan={plan}
          progress={progress}
          due={first}
          others={open.length - 1}
          onLook={() => setLooking(true)}
        />
      )}
      {first === undefined && waiting > 0 ? (
        <button type="button" class="button waiting" onClick={() => setListing(true)}>
          {t('{waiting} put off', { waiting })}
        </button>
      ) : null}
      {looking ? (
        <PlaceSheet plan={plan} progress={progress} onClose={() => setLooking(false)} />
      ) : null}
      {listing && waiting > 0 ? (
        <Sheet title={t('Put off')} onClose={() => setListing(false)}>
          {due.map((it) => (
            <DueBody
              key={it.id}
              plan={plan}
              progress={progress}
              due={it}
              others={0}
              onLook={() => setLooking(true)}
            />
          ))}
        </Sheet>
      ) : null}
    </div>
  );
}

interface DueBodyProps {
  readonly plan: Plan;
  readonly progress: Progress;
  readonly due: OpenDue;
  readonly others: number;
  readonly onLook: () => void;
}

function DueBody({ plan, progress, due, others, onLook }: DueBodyProps) {
  const words = dueWords(plan, progress, due);
  return (
    <section class="due" aria-label={t('Due: {title}', { title: words.title })}>
      <p class="due-words">
        <strong>{words.title}</strong>
        <span>
          {words.text}
          {others > 0 ? <em> {t('+{others} more', { others })}</em> : null}
        </span>
      </p>
      <div class="due-buttons">
        {due.kind === 'course' && due.due.at === progress.pick ? (
          <OnePickMore progress={progress} due={due.due} />
        ) : null}
        {due.kind === 'aimed' ? (
          <button type="button" class="button" onClick={() => keepOldPicks(due.report.reading)}>
            {t('Keep the old')}
          </button>
        ) : null}
        {TOLD_ONCE.has(due.kind) || due.deferred ? null : (
          <button
            type="button"
            class="button quiet"
            onClick={() => happen({ kind: 'dueDeferred', due: due.id })}
          >
            {t('Later')}
          </button>
        )}
        <button type="button" class="button strong" onClick={() => settle(due, onLook)}>
          {words.done}
        </button>
      </div>
    </section>
  );
}

/** Cards that ask for nothing, or only the weaver can answer, are not put off. */
const TOLD_ONCE: ReadonlySet<OpenDue['kind']> = new Set(['look', 'aimed', 'jump']);

const keepOldPicks = (reading: string) => happen({ kind: 'aimRefused', reading });

function settle(due: OpenDue, onLook: () => void): void {
  switch (due.kind) {
    case 'look':
      onLook();
      return;
    case 'advance':
      happen({ kind: 'advanced' });
      return;
    case 'aimed':
    case 'jump':
      happen({ kind: 'dueDone', due: due.id });
      return;
    case 'course':
      // One tap is one event, so that one undo takes it back.
      happen(due.due.kind === 'cutOff' ? { kind: 'cutOff' } : { kind: 'dueDone', due: due.id });
  }
}

/** Where the closing tail falls on the wrong side, one pick more of the last block brings it over. */
function OnePickMore({ progress, due }: { readonly progress: Progress; readonly due: Due }) {
  if (due.kind !== 'endTail' || !due.wrongSide) return null;
  const piece = progress.course.pieces[due.piece];
  const block =
    piece === undefined ? undefined : progress.course.blocks[piece.firstBlock + piece.blocks - 1];
  // Woven by eye it is taken back and thrown, as any pick is.
  if (block === undefined || block.laid.role === 'free') return null;
  const picks = block.picks + 1;
  return (
    <button
      type="button"
      class="button"
      onClick={() => happen({ kind: 'blockSet', piece: due.piece, block: block.ofPiece, picks })}
    >
      {t('One pick more')}
    </button>
  );
}
