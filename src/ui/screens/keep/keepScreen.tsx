/** Keep safe: a backup out of this device and back in, snapshots to go back to, logs as tables. */

import { useEffect } from 'preact/hooks';
import { showWarps } from '../../actions.ts';
import { readExported } from '../../cards.ts';
import { lookForRoom } from '../../device/room.ts';
import { done, leaveIt } from '../../keeping/comingIn.ts';
import { makeReady } from '../../keeping/goingOut.ts';
import { loadSnapshots } from '../../keeping/snapshots.ts';
import { t } from '../../language/t.ts';
import { followed, refusal } from '../../state.ts';
import '../../style/keep.css';
import { RefusalSheet } from '../warps/refusalSheet.tsx';
import { ChosenFile, ComingIn } from './comingIn.tsx';
import { DoneNote } from './doneNote.tsx';
import { GoingOut } from './goingOut.tsx';
import { KeptHere } from './keptHere.tsx';
import { LogTables } from './logTables.tsx';
import { Snapshots } from './snapshots.tsx';

const leave = () => {
  leaveIt();
  done.value = null;
  void showWarps();
};

export function KeepScreen() {
  // Again when another window has changed something.
  const news = followed.value;
  useEffect(() => {
    void makeReady();
    void loadSnapshots();
    void readExported();
    void lookForRoom();
  }, [news]);
  return (
    <main class="column keep">
      <header class="column-head keep-head">
        <button type="button" class="button" onClick={leave}>
          {t('‹ Warps')}
        </button>
        <h1>{t('Keep safe')}</h1>
      </header>
      <DoneNote />
      <ChosenFile />
      <GoingOut />
      <ComingIn />
      <KeptHere />
      <Snapshots />
      <LogTables />
      <RescueLink />
      {refusal.value === null ? null : <RefusalSheet refusal={refusal.value} />}
    </main>
  );
}

function RescueLink() {
  return (
    <section class="keep-part">
      <h2>{t('If Fellmark does not start')}</h2>
      <p class="lead">
        {t(
          'The rescue page takes the raw data off this device as it lies there. It works without the rest of the app.',
        )}
      </p>
      <a class="button" href="./rescue.html">
        {t('Open the rescue page')}
      </a>
    </section>
  );
}
