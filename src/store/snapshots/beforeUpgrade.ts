/** Whether opening the database would change how it is laid out. */
import { DATABASE_NAME, DATABASE_VERSION } from '../schema.ts';

/**
 * True for a database of an older version. Where the browser cannot tell without opening, false: an
 * upgrade that fails leaves everything as it was in any case.
 */
export async function wantsUpgrade(factory: IDBFactory): Promise<boolean> {
  try {
    const known = await factory.databases();
    const version = known.find(({ name }) => name === DATABASE_NAME)?.version;
    return version !== undefined && version < DATABASE_VERSION;
  } catch {
    return false;
  }
}
