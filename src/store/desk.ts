/** Where this window's writes are made: one after the other, and never without the pen. */
import { BothCopies } from './bothCopies.ts';
import type { Bus } from './bus.ts';
import { createHerald, type Herald, type StoreState } from './herald.ts';
import type { Ledger, Op } from './op.ts';
import { createPen, lonePen, type Pen } from './pen.ts';
import { createQueue, type Queue } from './queue.ts';
import type { Copies } from './takeUp.ts';
import { OutOfStep, storeErrorFrom } from './trouble.ts';

export interface Windows {
  readonly locks: LockManager;
  readonly bus: Bus;
}

export interface DeskOptions extends Copies {
  /** Null where windows cannot agree: then a write may follow any other. */
  readonly windows: Windows | null;
  /** Work to finish before another window gets the pen. */
  readonly finishing: () => Promise<void>;
}

export interface Desk {
  readonly herald: Herald;
  readonly write: (op: Op) => Promise<void>;
  /** Takes the pen and looks what the others wrote. What goes wrong is in the state. */
  readonly takePen: () => Promise<void>;
  readonly check: () => Promise<void>;
  /** Behind the writes already asked for. */
  readonly close: () => Promise<void>;
}

/** Milliseconds after which the pen counts as elsewhere. */
const ELSEWHERE_MS = 400;
const TRIES = 5;

/** `ledger`: where the database stands. */
export function createDesk(options: DeskOptions, ledger: Ledger | null): Desk {
  const { windows } = options;
  const loss = options.witness.loss();
  const herald = createHerald({ pen: 'asked', copies: 'unknown', loss, trouble: null }, ledger);
  const queue = createQueue();
  const both = bothFor(options, herald);
  const look = async (): Promise<void> => {
    const trouble = await queue(() => both.stand()).then(() => null, storeErrorFrom);
    // Not before: what is done here may only follow what it has read.
    if (pen.isHere()) herald.setState({ pen: 'here', trouble });
  };
  const leaving = createLeaving();
  const pen: Pen = penFor(options, { herald, queue, both, look, leaving });
  return {
    herald,
    takePen: () => leaving.over().then(pen.take).then(look),
    write: (op) =>
      queue(async () => {
        const { ledger: place, after } = await withPen(pen, () => both.write(op));
        windows?.bus.post({ kind: 'wrote', place, after, op });
      }),
    check: () => queue(() => both.check()),
    close: () =>
      queue(async () => {
        await both.letGo();
        pen.close();
        windows?.bus.close();
      }),
  };
}

/** Another window may take the pen at any moment, even between taking it here and writing. */
async function withPen<T>(pen: Pen, work: () => Promise<T>): Promise<T> {
  for (let left = TRIES - 1; ; left -= 1) {
    await pen.take();
    try {
      return await work();
    } catch (error) {
      if (!(error instanceof OutOfStep) || left === 0) throw error;
    }
  }
}

function bothFor(options: DeskOptions, herald: Herald): BothCopies {
  const { windows, journal } = options;
  return new BothCopies(options, {
    follows: windows === null ? 'any' : 'own',
    onLook: (standing) => {
      if (herald.looked(standing, journal !== null)) windows?.bus.post({ kind: 'changed' });
    },
    onWrite: (standing) => herald.wrote(standing, journal !== null),
  });
}

/** The time from another window's asking for the pen to its being given away. */
interface Leaving {
  readonly begin: () => void;
  readonly end: () => void;
  /** Resolves when the pen is not about to be given away. */
  readonly over: () => Promise<void>;
}

function createLeaving(): Leaving {
  let isOver = Promise.resolve();
  let end = (): void => undefined;
  return {
    // Never twice without an end between: the pen answers one asking at a time.
    begin: () => {
      isOver = new Promise((resolve) => {
        end = resolve;
      });
    },
    end: () => end(),
    over: () => isOver,
  };
}

interface Around {
  readonly leaving: Leaving;
  readonly herald: Herald;
  readonly queue: Queue;
  readonly both: BothCopies;
  readonly look: () => Promise<void>;
}

function penFor(options: DeskOptions, { herald, queue, both, look, leaving }: Around): Pen {
  const { windows, by, finishing } = options;
  const onGained = () => void look();
  if (windows === null) return lonePen(onGained);
  windows.bus.listen((message) => {
    if (message.kind === 'wrote') herald.othersWrote(message.place, message.after, message.op);
    if (message.kind === 'changed') herald.othersChanged();
  });
  setTimeout(() => {
    if (!pen.isHere()) herald.setState({ pen: 'elsewhere' });
  }, ELSEWHERE_MS);
  const pen = createPen(windows.locks, windows.bus, by, {
    onGained,
    onAsked: async () => {
      // From here on nothing new begins: it would follow what the other window is about to write.
      leaving.begin();
      herald.setState({ pen: 'asked' });
      await finishing();
      await queue(() => both.letGo());
    },
    onLost: () => {
      leaving.end();
      herald.setState({ pen: 'elsewhere', copies: 'unknown' });
      void queue(() => both.letGo());
    },
  });
  return pen;
}

/** Whether it is known where this window stands. */
export function isSettled({ pen }: StoreState): boolean {
  return pen !== 'asked';
}
