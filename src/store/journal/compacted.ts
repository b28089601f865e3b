/** What of a history still counts. */
import type { Entry, Op } from '../op.ts';

/** Without the writes the database refused after they had been written down here. */
export function keptOf(entries: readonly Entry[]): readonly Entry[] {
  const kept: Entry[] = [];
  for (const entry of entries) {
    while ((kept.at(-1)?.n ?? 0) > entry.after) kept.pop();
    kept.push(entry);
  }
  return kept;
}

/**
 * The shortest history that comes to the same: of what was written over only the last, of what was
 * taken away only that it was. Performing it on an older state also comes to the same.
 */
export function compacted(entries: readonly Entry[]): readonly Entry[] {
  const later = { things: new Set<string>(), gone: new Set<string>(), isReplaced: false };
  const backwards = keptOf(entries).toReversed();
  return backwards
    .flatMap((entry) => {
      const op = stillSaid(entry.op, later);
      return op === null ? [] : [{ ...entry, op }];
    })
    .toReversed();
}

interface Later {
  /** Settings and records written or taken away later. */
  readonly things: Set<string>;
  /** Warps taken away later. */
  readonly gone: Set<string>;
  /** Whether everything was replaced later: then nothing of before counts. */
  isReplaced: boolean;
}

function stillSaid(op: Op, later: Later): Op | null {
  const { things, gone } = later;
  if (later.isReplaced) return null;
  const firstOf = (thing: string) => {
    const isFirst = !things.has(thing);
    things.add(thing);
    return isFirst ? op : null;
  };
  switch (op.kind) {
    case 'setting':
      return firstOf(`setting ${op.name}`);
    case 'record':
      return firstOf(`record ${op.record.kind} ${op.record.id}`);
    case 'noRecord':
      return firstOf(`record ${op.of} ${op.id}`);
    case 'noWarp': {
      const isFirst = !gone.has(op.id);
      gone.add(op.id);
      return isFirst ? op : null;
    }
    case 'warp':
      return gone.has(op.warp.id) ? null : op;
    case 'revision':
      return gone.has(op.revision.warp) ? null : op;
    case 'contents':
      return op;
    case 'allContents':
      later.isReplaced = true;
      return op;
    case 'events': {
      const events = op.events.filter(({ warp }) => !gone.has(warp));
      return events.length === 0 ? null : { ...op, events };
    }
  }
}
