/**
 * Writing to both copies at once. A write counts when both have it on the disk; a journal that does
 * not work keeps nobody waiting, and is written anew when it works again.
 */
import type { Step } from './database.ts';
import { type Entry, isSamePlace, type Ledger, type Op } from './op.ts';
import { type Copies, type Standing, takeUp, within } from './takeUp.ts';
import { OutOfStep } from './trouble.ts';

/** Milliseconds a write waits for the journal once the database has it. */
const JOURNAL_MS = 1500;
/** Milliseconds after which a journal that did not work is tried again. */
const AGAIN_MS = 30_000;

/** One write, saved. */
export interface Written {
  readonly ledger: Ledger;
  /** The number of the write before it. */
  readonly after: number;
}

export interface BothOptions {
  /** Whether a write may follow one of another window unseen. */
  readonly follows: 'own' | 'any';
  /** The copies were compared. */
  readonly onLook: (standing: Standing) => void;
  readonly onWrite: (standing: Standing) => void;
}

/** To be asked one thing at a time. */
export class BothCopies {
  readonly #copies: Copies;
  readonly #options: BothOptions;
  #standing: Standing | null = null;
  /** The highest number ever given to the journal. */
  #posted = 0;
  #tryAgainAt = Number.POSITIVE_INFINITY;

  constructor(copies: Copies, options: BothOptions) {
    this.#copies = copies;
    this.#options = options;
  }

  /** Where this window stands; compares the copies unless it has since it got the pen. */
  async stand(): Promise<Standing> {
    const isToTry = this.#standing?.hasJournal === false && performance.now() > this.#tryAgainAt;
    if (this.#standing !== null && !isToTry) return this.#standing;
    this.#standing = null;
    const found = await takeUp(this.#copies);
    if (this.#copies.journal !== null && !found.hasJournal) this.#tryLater();
    this.#standing = found;
    this.#options.onLook(found);
    return found;
  }

  /** Rejects with `OutOfStep` when another window wrote meanwhile: the next try looks again. */
  async write(op: Op): Promise<Written> {
    try {
      return await this.#write(op);
    } catch (error) {
      if (error instanceof OutOfStep) this.#standing = null;
      throw error;
    }
  }

  /** Has the copies compared anew before the next write, and lets go of the journal. */
  async letGo(): Promise<void> {
    this.#standing = null;
    await this.#copies.journal?.close().catch(() => undefined);
  }

  /** Reads both copies through and mends what is damaged. */
  async check(): Promise<void> {
    const { journal, database } = this.#copies;
    if (this.#standing?.hasJournal !== true || journal === null) return;
    const { isComplete, mendThoroughly } = await import('./mend.ts');
    const isSound = await journal.isSound(this.#standing.ledger);
    if (isSound && (await database.survey(isComplete))) return;
    const mended = await mendThoroughly(this.#copies, journal);
    this.#standing = mended;
    this.#options.onLook(mended);
  }

  async #write(op: Op): Promise<Written> {
    const at = await this.stand();
    let after = 0;
    let reaching: Promise<boolean> | undefined;
    const onTaken = (entry: Entry): void => {
      after = entry.after;
      this.#posted = Math.max(this.#posted, entry.n);
      reaching ??= this.#reach(at, entry);
    };
    const ledger = await this.#copies.database.commit(op, { ...this.#stepFrom(at), onTaken });
    const hasJournal = (await reaching) === true;
    if (at.hasJournal && !hasJournal) this.#tryLater();
    const flushed = hasJournal ? ledger.n : at.flushed;
    this.#standing = { ...at, ledger, hasJournal, flushed };
    this.#options.onWrite(this.#standing);
    this.#copies.witness.write(ledger);
    return { ledger, after };
  }

  #stepFrom({ store, flushed, ledger }: Standing): Omit<Step, 'onTaken'> {
    const { by } = this.#copies;
    const mayFollow = (before: Ledger | null) =>
      this.#options.follows === 'any' || isNextTo(before, { ledger, by });
    return { by, store, flushed, posted: this.#posted, mayFollow };
  }

  /** Answers whether the entry is on the disk in the journal. */
  async #reach({ hasJournal }: Standing, entry: Entry): Promise<boolean> {
    const { journal } = this.#copies;
    if (journal === null || !hasJournal) return false;
    return within(JOURNAL_MS, journal.append(entry)).then(
      () => true,
      () => false,
    );
  }

  #tryLater(): void {
    this.#tryAgainAt = performance.now() + AGAIN_MS;
  }
}

/** Whether nobody else has written since this window knew where the database stood. */
function isNextTo(
  before: Ledger | null,
  { ledger, by }: { readonly ledger: Ledger | null; readonly by: string },
): boolean {
  // Our own write may have been committed without our knowing; one that is gone may not.
  return isSamePlace(before, ledger) || (before?.by === by && before.n > (ledger?.n ?? 0));
}
