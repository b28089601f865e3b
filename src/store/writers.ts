/** The calls that write, each as one write. */
import type { Op } from './op.ts';
import { plainCopy } from './plain.ts';
import type { Store } from './store.ts';

export type Writers = Pick<
  Store,
  | 'addWarp'
  | 'addRevision'
  | 'removeWarp'
  | 'append'
  | 'appendAll'
  | 'setSetting'
  | 'putRecord'
  | 'removeRecord'
  | 'addContents'
  | 'replaceContents'
>;

/** Each copies what it is given before anything is awaited: its caller may go on with it. */
export function writersBy(write: (op: Op) => Promise<void>): Writers {
  return {
    addWarp: async (warp, plan) =>
      write({ kind: 'warp', warp: plainCopy(warp, 'warp'), plan: plainCopy(plan, 'plan') }),
    addRevision: async (revision) =>
      write({ kind: 'revision', revision: plainCopy(revision, 'revision') }),
    removeWarp: (id) => write({ kind: 'noWarp', id }),
    append: async (event) => write({ kind: 'events', events: [plainCopy(event, 'event')] }),
    appendAll: async (events) => write({ kind: 'events', events: plainCopy(events, 'events') }),
    setSetting: async (name, value) =>
      write({ kind: 'setting', name, value: plainCopy(value, name) }),
    putRecord: async (record) => write({ kind: 'record', record: plainCopy(record, 'record') }),
    removeRecord: (of, id) => write({ kind: 'noRecord', of, id }),
    addContents: async (more) => write({ kind: 'more', contents: plainCopy(more, 'contents') }),
    replaceContents: async (all) => write({ kind: 'all', contents: plainCopy(all, 'contents') }),
  };
}
