/** The journal of a warp: its sittings, notes and photos, to be searched and printed. */

import { useState } from 'preact/hooks';
import { pieceAt } from '../../../core/bench/pickAt.ts';
import { showWarps, turnTo } from '../../actions.ts';
import { journal, putBackIn } from '../../journaling.ts';
import { t } from '../../language/t.ts';
import { chooseStretch, showAgainst } from '../../motifPages.ts';
import { FileButton } from '../../parts/fileButton.tsx';
import { lazily } from '../../parts/lazily.tsx';
import { type Session, session } from '../../state.ts';
import '../../style/fields.css';
import '../../style/journal.css';
import { NoteSheet, PhotoSheet } from './noteSheet.tsx';
import { Sittings } from './sittings.tsx';
import { timeWords } from './words.ts';

const PrintPages = lazily(async () => (await import('./printPages.tsx')).PrintPages);

type Open =
  | { readonly kind: 'note' }
  | { readonly kind: 'photo'; readonly file: File }
  | { readonly kind: 'print' };

export function JournalScreen() {
  const [open, setOpen] = useState<Open | null>(null);
  const [search, setSearch] = useState('');
  const now = session.value;
  const story = journal.value;
  if (now === null || story === null) return null;
  if (open?.kind === 'print') return <PrintPages now={now} onClose={() => setOpen(null)} />;
  const { course, pick } = now.progress;
  const sheet = {
    plan: now.plan,
    piece: pieceAt(course, Math.max(0, pick - 1)).index,
    onClose: () => setOpen(null),
  };
  return (
    <main class="column journal">
      <Head now={now} />
      <Tools piece={sheet.piece} search={search} onSearch={setSearch} onOpen={setOpen} />
      <TakenOut now={now} />
      <Total />
      <Sittings plan={now.plan} journal={story} search={search} />
      {open?.kind === 'note' ? <NoteSheet {...sheet} /> : null}
      {open?.kind === 'photo' ? <PhotoSheet {...sheet} file={open.file} /> : null}
    </main>
  );
}

function Head({ now }: { readonly now: Session }) {
  return (
    <header class="column-head journal-head">
      <button type="button" class="button" onClick={() => void showWarps()}>
        {t('‹ Warps')}
      </button>
      <h1>{now.plan.name}</h1>
      {now.progress.cutOff ? (
        <button type="button" class="button" onClick={() => turnTo('measure')}>
          {t('Measure')}
        </button>
      ) : (
        <button type="button" class="button" onClick={() => turnTo('weave')}>
          {t('To the loom')}
        </button>
      )}
    </header>
  );
}

interface ToolsProps {
  /** The piece woven on last. */
  readonly piece: number;
  readonly search: string;
  readonly onSearch: (search: string) => void;
  readonly onOpen: (open: Open) => void;
}

function Tools({ piece, search, onSearch, onOpen }: ToolsProps) {
  const photo = (file: File) => onOpen({ kind: 'photo', file });
  return (
    <div class="journal-tools">
      <button type="button" class="button strong" onClick={() => onOpen({ kind: 'note' })}>
        {t('Note')}
      </button>
      <FileButton
        words={t('Take a photo')}
        label={t('Photo from the camera')}
        accept="image/*"
        camera
        onFile={photo}
      />
      <FileButton words={t('Choose a photo')} label={t('Photo')} accept="image/*" onFile={photo} />
      <button type="button" class="button" onClick={() => onOpen({ kind: 'print' })}>
        {t('Print')}
      </button>
      <button type="button" class="button" onClick={() => chooseStretch(piece)}>
        {t('Choose a stretch')}
      </button>
      <button type="button" class="button" onClick={() => showAgainst(piece)}>
        {t('Planned and woven')}
      </button>
      <input
        type="search"
        class="journal-search"
        aria-label={t('Search the journal')}
        placeholder={t('Search')}
        value={search}
        onInput={(event) => onSearch(event.currentTarget.value)}
      />
    </div>
  );
}

function Total() {
  const story = journal.value;
  if (story === null || story.total.picks === 0) return null;
  const { picks, minutes } = story.total;
  const woven = story.sittings.filter((it) => it.picks > 0).length;
  return (
    <p class="journal-total">
      {[
        t('{n, plural, one {# pick} other {# picks}}', { n: picks }),
        ...(minutes < 1 ? [] : [timeWords(minutes)]),
        t('{n, plural, one {# sitting} other {# sittings}}', { n: woven }),
      ].join(' · ')}
    </p>
  );
}

/** What was just taken out, and the one tap that brings it back. */
function TakenOut({ now }: { readonly now: Session }) {
  const last = now.log.at(-1);
  const gone = last?.kind === 'undone' ? now.log.find((it) => it.id === last.event) : undefined;
  const isOurs = gone?.kind === 'noted' || gone?.kind === 'photographed';
  return (
    <div class="journal-gone" role="status">
      {gone !== undefined && isOurs ? (
        <div class="offer">
          <p>
            {gone.kind === 'noted' ? t('The note is taken out.') : t('The photo is taken out.')}
          </p>
          <button type="button" class="button" onClick={() => putBackIn(gone.id)}>
            {t('Put it back')}
          </button>
        </div>
      ) : null}
    </div>
  );
}
