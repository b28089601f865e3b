/** The shelf of motifs, each with its picture and what can be done with it. */

import { useEffect, useState } from 'preact/hooks';
import type { Motif } from '../../../core/plan/motif.ts';
import { t } from '../../language/t.ts';
import { lastChange, loadMotifs, motifShelf, putBack } from '../../motifs.ts';
import { BlockLines } from '../../parts/blockLines.tsx';
import { type Screen, settings } from '../../state.ts';
import '../../style/motifs.css';
import { BackButton } from './backButton.tsx';
import { MotifPicture } from './motifPicture.tsx';
import { MotifSheet, type SheetPage } from './motifSheet.tsx';
import { CHANGED, fromWords, NO_MOTIF, REMOVED, sizeWords } from './words.ts';

interface Open {
  readonly motif: Motif;
  readonly page: SheetPage;
}

export function MotifShelf({ back }: { readonly back: Screen }) {
  const [open, setOpen] = useState<Open | null>(null);
  useEffect(() => {
    void loadMotifs();
  }, []);
  const motifs = motifShelf.value;
  return (
    <main class="column motifs">
      <header class="column-head motifs-head">
        <BackButton back={back} />
        <h1>{t('Motifs')}</h1>
      </header>
      <LastChange />
      {motifs.length === 0 ? <p class="lead">{NO_MOTIF}</p> : null}
      <ul class="motif-list">
        {motifs.map((motif) => (
          <MotifTile key={motif.id} motif={motif} onOpen={(page) => setOpen({ motif, page })} />
        ))}
      </ul>
      {open === null ? null : (
        <MotifSheet motif={open.motif} first={open.page} onClose={() => setOpen(null)} />
      )}
    </main>
  );
}

interface TileProps {
  readonly motif: Motif;
  readonly onOpen: (page: SheetPage) => void;
}

function MotifTile({ motif, onOpen }: TileProps) {
  const { units } = settings.value;
  return (
    <li class="motif-tile">
      <MotifPicture motif={motif} />
      <div class="motif-words">
        <h2>{motif.name}</h2>
        <p class="motif-size">{sizeWords(motif, units)}</p>
        <BlockLines blocks={motif.blocks} yarns={motif.yarns} units={units} />
        <p class="hint">{fromWords(motif)}</p>
      </div>
      <div class="motif-buttons">
        <button
          type="button"
          class="button strong"
          aria-label={t('Weave it again: {name}', { name: motif.name })}
          onClick={() => onOpen('again')}
        >
          {t('Weave it again')}
        </button>
        <button
          type="button"
          class="button"
          aria-label={t('More with {name}', { name: motif.name })}
          onClick={() => onOpen('menu')}
        >
          {t('More')}
        </button>
      </div>
    </li>
  );
}

/** What was just removed or changed, and the one tap that brings it back. */
function LastChange() {
  const change = lastChange.value;
  return (
    <div role="status" class="motifs-change">
      {change === null ? null : (
        <div class="offer">
          <p>
            {change.kind === 'removed' ? REMOVED(change.before.name) : CHANGED(change.before.name)}
          </p>
          <button type="button" class="button" onClick={putBack}>
            {change.kind === 'removed' ? t('Put it back') : t('As it was')}
          </button>
        </div>
      )}
    </div>
  );
}
