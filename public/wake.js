// Of all that a start waits for, the database takes longest: it is woken while the app is on its way.
window.fellmarkDatabases = window.indexedDB?.databases?.();
window.fellmarkDatabases?.catch(() => {});
