/** Answers what is asked of the journal, one thing after the other, and lets go of it in between. */
import { createQueue } from '../queue.ts';
import type { Answer, Request } from './journal.ts';
import { createJournalFile, type JournalFile } from './journalFile.ts';
import type { SyncFile } from './syncFile.ts';

export type ClosableFile = SyncFile & { readonly close: () => void };
export type OpenFiles = () => Promise<readonly [ClosableFile, ClosableFile]>;

/** Milliseconds of quiet before the journal is written anew: never between two taps. */
const QUIET_MS = 3_000;

/**
 * Makes the one function that answers requests. `data`: the version of the data this app writes;
 * `quietMs` after the last write the journal may be written anew.
 */
export function createKeeper(
  openFiles: OpenFiles,
  data: number,
  quietMs = QUIET_MS,
): (request: Request) => Promise<Answer> {
  const queue = createQueue();
  let open: { files: readonly ClosableFile[]; journal: JournalFile } | null = null;
  let quiet: ReturnType<typeof setTimeout> | undefined;

  const close = (): void => {
    for (const file of open?.files ?? []) file.close();
    open = null;
  };
  const opened = (): JournalFile => {
    if (open === null) throw new Error('got a journal that is closed, wanted it open');
    return open.journal;
  };
  const compactLater = (): void => {
    clearTimeout(quiet);
    quiet = setTimeout(() => {
      void queue(async () => {
        if (open?.journal.isLarge()) open.journal.compact();
      }).catch(() => undefined);
    }, quietMs);
  };
  const answer = async ({ name, args }: Request): Promise<unknown> => {
    switch (name) {
      case 'open': {
        close();
        const files = await openFiles();
        open = { files, journal: createJournalFile(files, data) };
        return open.journal.compare(...args);
      }
      case 'append':
        compactLater();
        return opened().append(...args);
      case 'rewrite':
        return opened().rewrite(...args);
      case 'isSound':
        return opened().isSound(...args);
      case 'close':
        return close();
    }
  };
  return (request) =>
    queue(() => answer(request)).then(
      (value) => ({ id: request.id, value }),
      (error: unknown) => ({ id: request.id, error: String(error) }),
    );
}
