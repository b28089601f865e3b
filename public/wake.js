// Of all that a start waits for, the database takes longest: it is woken while the app is on its way.
window.fellmarkDatabases = window.indexedDB?.databases?.();
window.fellmarkDatabases?.catch(() => {});
// And what a long log came to (src/store/folds.ts, which lays this database out alike) is read from its own.
window.fellmarkFold = new Promise((resolve, reject) => {
  const opening = window.indexedDB.open('fellmark-fold', 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore('fold');
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const database = opening.result;
    const asking = database.transaction('fold').objectStore('fold').get('last');
    asking.onerror = () => reject(asking.error);
    asking.onsuccess = () => resolve(asking.result);
    database.close();
  };
});
window.fellmarkFold.catch(() => {});
