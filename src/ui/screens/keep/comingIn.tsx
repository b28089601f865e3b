/** Bringing a backup in: a file is chosen, looked at, and then brought in or left. */
import { incoming, type RefusedFile, refusedFile } from '../../keeping/comingIn.ts';
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
      <h2>Bring in a backup</h2>
      <p class="lead">
        It adds what is new and takes nothing away. First you see what would happen.
      </p>
      <FileButton
        words="Choose a backup file"
        label="Backup file"
        onFile={(file) => void openFile(file, 'backup')}
      />
    </section>
  );
}

function Refused({ refused: { name, problems } }: { readonly refused: RefusedFile }) {
  return (
    <section class="keep-panel" role="alert">
      <h2>Nothing was brought in</h2>
      <p>
        Of <strong>{name}</strong> nothing was stored.{' '}
        {problems.length === 1 ? 'One thing is' : `${problems.length} things are`} in the way:
      </p>
      <ProblemList problems={problems} words={wordsForBackup} />
    </section>
  );
}
