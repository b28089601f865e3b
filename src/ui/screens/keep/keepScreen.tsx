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
      <IfLost />
      <RescueLink />
      {refusal.value === null ? null : <RefusalSheet refusal={refusal.value} />}
    </main>
  );
}

/** Read before it happens, one hopes: what to keep apart from this device, and the way back with either. */
function IfLost() {
  return (
    <section class="keep-part">
      <h2>{t('If this device is lost or broken')}</h2>
      <p class="lead">
        {t(
          'With a backup: bring it in on another device, and weave on at the same pick. So keep one elsewhere, and save it anew after a day of weaving.',
        )}
      </p>
      <p class="lead">
        {t(
          'Without one: bring in the plan by file or by its code, printed beforehand, and put it on the loom. There choose More, Find my place, and tell the piece and the pick: the printed loom card has the first pick of every block.',
        )}
      </p>
    </section>
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
