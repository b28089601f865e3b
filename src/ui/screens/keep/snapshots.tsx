/** States kept inside the app, newest first, to look at and to go back to. */

import { useState } from 'preact/hooks';
import type { SnapshotNote } from '../../../core/backup/snapshots.ts';
import { now } from '../../actions.ts';
import { lookAtSnapshot } from '../../keeping/comingIn.ts';
import { snapshots } from '../../keeping/snapshots.ts';
import { t } from '../../language/t.ts';
import { sizeWords } from '../../parts/sizeWords.ts';
import { whenWords } from '../../parts/when.ts';
import { holdsWords, snapshotWords } from './words.ts';

/** As many as are shown at first. */
const FEW = 6;

export function Snapshots() {
  const [all, setAll] = useState(false);
  const list = snapshots.value ?? [];
  const shown = all ? list : list.slice(0, FEW);
  return (
    <section class="keep-part">
      <h2>{t('Snapshots on this device')}</h2>
      <p class="lead">
        {t(
          'Taken after every half hour of weaving, and before a backup comes in, something is removed or an update changes the storage. The last eight stay, and the last of each day for two weeks; those before a change for thirty days.',
        )}
      </p>
      {snapshots.value !== null && list.length === 0 ? (
        <p class="keep-state">{t('There is none yet.')}</p>
      ) : null}
      {shown.length === 0 ? null : (
        <ul class="keep-list">
          {shown.map((note) => (
            <Tile key={note.id} note={note} />
          ))}
        </ul>
      )}
      {list.length > shown.length ? (
        <button type="button" class="button" onClick={() => setAll(true)}>
          {t('Show all {n}', { n: list.length })}
        </button>
      ) : null}
    </section>
  );
}

function Tile({ note }: { readonly note: SnapshotNote }) {
  const when = whenWords(note.madeAt, new Date(now()));
  return (
    <li class="keep-tile">
      <div>
        <h3>{when}</h3>
        <p>{snapshotWords(note)}</p>
        <p>
          {holdsWords(note.holds)}, {sizeWords(note.bytes)}
        </p>
      </div>
      <button
        type="button"
        class="button"
        aria-label={t('Look at the snapshot of {when}', { when })}
        onClick={() => void lookAtSnapshot(note)}
      >
        {t('Look')}
      </button>
    </li>
  );
}
