/** The two files of the journal, as a browser's private file system would hold them. */
import type { ClosableFile, OpenFiles } from '../../src/store/journal/keeper.ts';

export interface FakeFile extends ClosableFile {
  /** What is in it now. */
  readonly bytes: () => Uint8Array;
  readonly set: (bytes: Uint8Array) => void;
}

/** What each operation that writes may do instead; `n` counts them from 0. */
export type FileFault = (n: number, operation: 'write' | 'truncate' | 'flush') => void;

/** A disk whose power goes: what comes after it does not happen, and never says so. */
export class PowerCut extends Error {}

export interface FakeFiles {
  readonly files: readonly [FakeFile, FakeFile];
  /** As a worker opens them: one at a time. */
  readonly open: OpenFiles;
  readonly isOpen: () => boolean;
  /** Operations that wrote so far. */
  readonly count: () => number;
  readonly setFault: (fault: FileFault) => void;
}

export function fakeFiles(): FakeFiles {
  let held = false;
  let done = 0;
  let fault: FileFault = () => undefined;
  const before = (operation: 'write' | 'truncate' | 'flush') => {
    done += 1;
    fault(done - 1, operation);
  };
  const close = () => {
    held = false;
  };
  const files = [fakeFile(before, close), fakeFile(before, close)] as const;
  return {
    files,
    open: async () => {
      if (held) throw new DOMException('held by another window', 'NoModificationAllowedError');
      held = true;
      return files;
    },
    isOpen: () => held,
    count: () => done,
    setFault: (next) => {
      fault = next;
    },
  };
}

type Before = (operation: 'write' | 'truncate' | 'flush') => void;

function fakeFile(before: Before, close: () => void): FakeFile {
  let room = new Uint8Array(1024);
  let size = 0;
  const resize = (next: number) => {
    if (next > room.length) {
      const larger = new Uint8Array(next * 2);
      larger.set(room.subarray(0, size));
      room = larger;
    }
    // What is cut off does not come back when the file grows again.
    room.fill(0, next, Math.max(next, size));
    size = next;
  };
  return {
    bytes: () => room.slice(0, size),
    set: (bytes) => {
      resize(0);
      resize(bytes.length);
      room.set(bytes);
    },
    close,
    getSize: () => size,
    read: (into, { at }) => {
      const part = room.subarray(at, Math.min(size, at + into.length));
      into.set(part);
      return part.length;
    },
    write: (bytes, { at }) => {
      before('write');
      if (at + bytes.length > size) resize(at + bytes.length);
      room.set(bytes, at);
      return bytes.length;
    },
    truncate: (next) => {
      before('truncate');
      resize(next);
    },
    flush: () => before('flush'),
  };
}
