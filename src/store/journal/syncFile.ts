/** Bytes to and from a file, where a write either reaches the disk whole or throws. */

/** What is used of the browser's FileSystemSyncAccessHandle. */
export interface SyncFile {
  readonly getSize: () => number;
  readonly read: (into: Uint8Array, options: { at: number }) => number;
  readonly write: (bytes: Uint8Array, options: { at: number }) => number;
  readonly truncate: (size: number) => void;
  readonly flush: () => void;
}

/** The bytes `from` … `to`, fewer where the file ends before. */
export function readFrom(file: SyncFile, from: number, to: number): Uint8Array {
  const bytes = new Uint8Array(Math.max(0, Math.min(to, file.getSize()) - from));
  return bytes.subarray(0, file.read(bytes, { at: from }));
}

/** Throws when not all of it was taken: what a full disk cuts off is not always an error. */
export function writeTo(file: SyncFile, bytes: Uint8Array, at: number): void {
  const written = file.write(bytes, { at });
  if (written !== bytes.length) {
    throw new DOMException(`got ${written} of ${bytes.length} bytes`, 'QuotaExceededError');
  }
}

/** Throws when it did not reach the disk, and leaves the file as it was. */
export function writeAtEnd(file: SyncFile, bytes: Uint8Array): void {
  const size = file.getSize();
  try {
    writeTo(file, bytes, size);
    file.flush();
  } catch (error) {
    file.truncate(size);
    throw error;
  }
}
