/** What a backup or a snapshot holds, and what bringing it in would do. */

import { useEffect, useRef } from 'preact/hooks';
import { now } from '../../actions.ts';
import {
  bringIn,
  type Incoming,
  type IncomingRow,
  leaveIt,
  notKept,
  replaceAll,
  working,
} from '../../keeping/comingIn.ts';
import { t } from '../../language/t.ts';
import { ProblemList } from '../../parts/problemList.tsx';
import { whenWords } from '../../parts/when.ts';
import { wordsFor } from '../../problemWords.ts';
import { ReplaceAll } from './replaceAll.tsx';
import { ROW_TAGS, recordWords, rowWords, sourceName, wordsForBackup } from './words.ts';

export function Preview({ incoming }: { readonly incoming: Incoming }) {
  const heading = useRef<HTMLHeadingElement>(null);
  // It opens above what was tapped: whoever reads or hears the screen is taken there.
  useEffect(() => heading.current?.focus(), [incoming]);
  const { source, backup, rows, records } = incoming;
  const at = new Date(now());
  return (
    <section class="keep-panel">
      <h2 ref={heading} tabIndex={-1}>
        {source.kind === 'file'
          ? source.name
          : t('Snapshot of {when}', { when: whenWords(backup.madeAt, at) })}
      </h2>
      <p>
        {source.kind === 'file'
          ? `${t('Made {when}.', { when: whenWords(backup.madeAt, at) })} `
          : ''}
        {rows.length + records.length === 0 ? t('There is nothing in it.') : t('In it:')}
      </p>
      <ul class="keep-rows">
        {rows.map((row) => (
          <Row key={row.id} row={row} />
        ))}
      </ul>
      {recordWords(records).map((words) => (
        <p key={words}>{words}</p>
      ))}
      <LeftOut incoming={incoming} />
      <Unread incoming={incoming} />
      <NotKept incoming={incoming} />
      <Deeds incoming={incoming} />
    </section>
  );
}

function Row({ row }: { readonly row: IncomingRow }) {
  return (
    <li data-kind={row.kind}>
      <p class="keep-name">
        {row.name}
        {row.demo ? <span class="tag">{t('demo')}</span> : null}
        <span class="tag">{ROW_TAGS[row.kind]}</span>
      </p>
      <p>{rowWords(row)}</p>
    </li>
  );
}

/** Of a rescue file only what can be read comes in. */
function LeftOut({ incoming: { left } }: { readonly incoming: Incoming }) {
  if (left.length === 0) return null;
  return (
    <details>
      <summary>
        {t(
          '{n, plural, =1 {One thing in it cannot be read and would be left out: keep the file} other {# things in it cannot be read and would be left out: keep the file}}',
          { n: left.length },
        )}
      </summary>
      <ProblemList problems={left.slice(0, MOST_SHOWN)} words={wordsForBackup} />
    </details>
  );
}

/** Of a long list the first are enough to see what is wrong. */
const MOST_SHOWN = 50;

/** Things of another version, or damaged before they were written: carried along as they are. */
function Unread({ incoming: { unread } }: { readonly incoming: Incoming }) {
  if (unread.length === 0) return null;
  return (
    <details>
      <summary>
        {t(
          '{n, plural, =1 {One thing in it cannot be read by this version and would be kept as it is} other {# things in it cannot be read by this version and would be kept as they are}}',
          { n: unread.length },
        )}
      </summary>
      <ProblemList problems={unread.slice(0, MOST_SHOWN)} words={wordsFor} />
    </details>
  );
}

function NotKept({ incoming }: { readonly incoming: Incoming }) {
  return (
    <div role="alert">
      {notKept.value ? (
        <div class="offer">
          <p>
            {t(
              'Nothing was changed: there was no room to keep the present state first. Free some space, or save a backup.',
            )}
          </p>
          <button type="button" class="button" onClick={() => void bringIn(incoming, 'snapshot')}>
            {t('Bring it in all the same')}
          </button>
        </div>
      ) : null}
    </div>
  );
}

function Deeds({ incoming }: { readonly incoming: Incoming }) {
  const { source, rows, records } = incoming;
  const isNews =
    rows.some(({ kind }) => kind !== 'same' && kind !== 'older') ||
    records.some(({ kind }) => kind === 'new' || kind === 'newer');
  const isSnapshot = source.kind === 'snapshot';
  return (
    <>
      {isNews ? null : (
        <p class="keep-state">{t('Nothing in it is new: all of it is here already.')}</p>
      )}
      <div class="row">
        {isSnapshot ? (
          <button
            type="button"
            class="button strong"
            disabled={working.value}
            onClick={() => void replaceAll(incoming)}
          >
            {t('Go back to this')}
          </button>
        ) : null}
        {isNews ? (
          <button
            type="button"
            class={isSnapshot ? 'button' : 'button strong'}
            disabled={working.value}
            onClick={() => void bringIn(incoming)}
          >
            {isSnapshot ? t('Only add what is missing') : t('Bring it in')}
          </button>
        ) : null}
        <button type="button" class="button" disabled={working.value} onClick={leaveIt}>
          {t('Leave it')}
        </button>
      </div>
      {isSnapshot ? (
        <p class="hint">
          {t(
            'Going back makes everything as it was in {source}. What is here now is kept first, so it can be undone.',
            { source: sourceName(source, new Date(now())) },
          )}
        </p>
      ) : (
        <ReplaceAll incoming={incoming} />
      )}
    </>
  );
}
