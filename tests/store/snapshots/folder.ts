/** A private file system in memory, with the few calls that snapshots use, that fails on request. */

type Part = Uint8Array<ArrayBuffer>;

export interface FakeStorage {
  readonly storage: StorageManager;
  /** The bytes of every file, by name, as they lie there. */
  readonly files: Map<string, Part>;
}

export interface Faults {
  /** The disk is found full when this many bytes were written to one file. */
  readonly fullAt?: number;
  /** A file is said to be written and is cut to this many bytes. */
  readonly cutTo?: number;
  /** As in older Safari. */
  readonly onlyInWorkers?: true;
}

export function fakeStorage(faults: Faults = {}): FakeStorage {
  const files = new Map<string, Part>();
  const folder = {
    getFileHandle: async (name: string, options?: { create?: boolean }) => {
      if (!files.has(name)) {
        if (options?.create !== true) throw new DOMException(name, 'NotFoundError');
        files.set(name, new Uint8Array());
      }
      return handleOf(files, name, faults);
    },
    removeEntry: async (name: string) => {
      if (!files.delete(name)) throw new DOMException(name, 'NotFoundError');
    },
    values: async function* () {
      for (const name of files.keys()) yield handleOf(files, name, faults);
    },
  };
  const root = { getDirectoryHandle: async () => folder };
  const storage: unknown = { getDirectory: async () => root };
  return { storage: storage as StorageManager, files };
}

function handleOf(files: Map<string, Part>, name: string, faults: Faults) {
  const keep = (bytes: Part) => files.set(name, bytes.slice(0, faults.cutTo ?? bytes.length));
  const handle = {
    kind: 'file',
    name,
    getFile: async () => new File([files.get(name) ?? ''], name),
    createSyncAccessHandle: async () => {
      let written: Part = new Uint8Array();
      return {
        truncate: () => undefined,
        write: (part: Part, { at }: { at: number }) => {
          written = joined(written.slice(0, at), part);
          return part.length;
        },
        flush: () => keep(written),
        close: () => undefined,
      };
    },
  };
  if (faults.onlyInWorkers) return handle;
  const createWritable = async () => {
    let written: Part = new Uint8Array();
    return {
      write: async (part: Part) => {
        written = joined(written, part);
        if (written.length > (faults.fullAt ?? Number.POSITIVE_INFINITY))
          throw new DOMException('full', 'QuotaExceededError');
      },
      close: async () => {
        keep(written);
      },
      abort: async () => undefined,
    };
  };
  return { ...handle, createWritable };
}

function joined(a: Part, b: Part): Part {
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}
