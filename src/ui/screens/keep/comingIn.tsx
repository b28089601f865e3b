/** Bringing a backup in: a file is chosen, looked at, and then brought in or left. */

import { incoming, type RefusedFile, refusedFile } from '../../keeping/comingIn.ts';
import { t, tParts } from '../../language/t.ts';
import { openFile } from '../../opening.ts';
import { FileButton } from '../../parts/fileButton.tsx';
import { ProblemList } from '../../parts/problemList.tsx';
import { Preview } from './preview.tsx';
import { wordsForBackup } from './words.ts';

/** What was chosen last: on top of the screen, wherever it was chosen. */
export function ChosenFile() {
  const shown = incoming.value;
  const refused = refusedFile.value;
  if (shown !== null) return <Preview incoming={shown} />;
  return refused === null ? null : <Refused refused={refused} />;
}

export function ComingIn() {
  return (
    <section class="keep-part">
      <h2>{t('Bring in a backup')}</h2>
      <p class="lead">
        {t('It adds what is new and takes nothing away. First you see what would happen.')}
      </p>
      <FileButton
        words={t('Choose a backup file')}
        label={t('Backup file')}
        onFile={(file) => void openFile(file, 'backup')}
      />
    </section>
  );
}

function Refused({ refused: { name, problems } }: { readonly refused: RefusedFile }) {
  return (
    <section class="keep-panel" role="alert">
      <h2>{t('Nothing was brought in')}</h2>
      <p>
        {tParts('Of {name} nothing was stored.', { name: <strong>{name}</strong> })}{' '}
        {t('{n, plural, =1 {One thing is in the way:} other {# things are in the way:}}', {
          n: problems.length,
        })}
      </p>
      <ProblemList problems={problems} words={wordsForBackup} />
    </section>
  );
}
