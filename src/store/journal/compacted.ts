/** What of a history still counts. */
import type { Contents } from '../../core/backup/contents.ts';
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
  const later: Later = { things: new Set(), gone: new Set(), isAllNew: false };
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
  /** Whether everything was replaced later. */
  isAllNew: boolean;
}

function stillSaid(op: Op, later: Later): Op | null {
  if (later.isAllNew) return null;
  const { things, gone } = later;
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
    case 'events': {
      const events = op.events.filter(({ warp }) => !gone.has(warp));
      return events.length === 0 ? null : { ...op, events };
    }
    case 'more':
      return { ...op, contents: stillHeld(op.contents, later) };
    case 'all': {
      const contents = stillHeld(op.contents, later);
      later.isAllNew = true;
      return { ...op, contents };
    }
  }
}

function stillHeld(contents: Contents, { things, gone }: Later): Contents {
  const isFirst = (thing: string) => !things.has(thing);
  const settings = contents.settings.filter(({ name }) => isFirst(`setting ${name}`));
  const records = contents.records.filter(({ kind, id }) => isFirst(`record ${kind} ${id}`));
  for (const { name } of settings) things.add(`setting ${name}`);
  for (const { kind, id } of records) things.add(`record ${kind} ${id}`);
  return { warps: contents.warps.filter(({ warp }) => !gone.has(warp.id)), records, settings };
}
