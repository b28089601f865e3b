/** What is known of the database before it is opened. */
import { DATABASE_NAME, DATABASE_VERSION } from '../schema.ts';

declare global {
  /** What `wake.js` asked for, where it has run. */
  var fellmarkDatabases: Promise<IDBDatabaseInfo[]> | undefined;
}

/**
 * Its version; 0 where there is none yet. One lower than ours is laid out anew when it is opened. Where
 * the browser cannot tell, ours: an upgrade that fails leaves everything as it was in any case.
 */
export async function versionBefore(factory: IDBFactory): Promise<number> {
  try {
    const known = await (globalThis.fellmarkDatabases ?? factory.databases());
    return known.find(({ name }) => name === DATABASE_NAME)?.version ?? 0;
  } catch {
    return DATABASE_VERSION;
  }
}
