import type { SyncFile } from './syncFile.ts';

/** Bytes to be read as a file; it takes nothing. */
export function fileOver(bytes: Uint8Array): SyncFile {
  const refuse = (): never => {
    throw new Error('got a write to a file that is only read');
  };
  return {
    getSize: () => bytes.length,
    read: (into, { at }) => {
      const part = bytes.subarray(at, at + into.length);
      into.set(part);
      return part.length;
    },
    write: refuse,
    truncate: refuse,
    flush: refuse,
  };
}
