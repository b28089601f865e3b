/** Bringing a backup in: a file is chosen, looked at, and then brought in or left. */
import { useRef } from 'preact/hooks';
import { incoming, type RefusedFile, refusedFile } from '../../keeping/comingIn.ts';
import { openFile } from '../../opening.ts';
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
      <ChooseFile />
    </section>
  );
}

/** The input filters nothing: tablets give files odd types. */
function ChooseFile() {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" class="button" onClick={() => input.current?.click()}>
        Choose a backup file
      </button>
      <input
        ref={input}
        type="file"
        class="unseen"
        tabIndex={-1}
        aria-label="Backup file"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          event.currentTarget.value = '';
          if (file !== undefined) void openFile(file, 'backup');
        }}
      />
    </>
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
