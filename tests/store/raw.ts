/** The database itself, past the store. */
import { DATABASE_NAME } from '../../src/store/schema.ts';

/** Opens the database past the store, as another version or a mishap would. */
export function openRaw(
  indexedDB: IDBFactory,
  version?: number,
  upgrade?: (database: IDBDatabase) => void,
): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE_NAME, version);
    request.onupgradeneeded = () => upgrade?.(request.result);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Puts records into one object store, past the store. */
export function putRaw(
  database: IDBDatabase,
  room: string,
  records: readonly object[],
): Promise<void> {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction([room], 'readwrite');
    for (const record of records) transaction.objectStore(room).put(record);
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
  });
}

/** All records of one object store. */
export function getRaw(database: IDBDatabase, room: string): Promise<unknown[]> {
  return new Promise((resolve, reject) => {
    const request = database.transaction([room]).objectStore(room).getAll();
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
