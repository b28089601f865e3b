/** What is known of the database before it is opened. */
import { DATABASE_NAME, DATABASE_VERSION } from '../schema.ts';

/**
 * `older`: opening it would change how it is laid out. Where the browser cannot tell without opening,
 * `ours`: an upgrade that fails leaves everything as it was in any case.
 */
export async function versionBefore(factory: IDBFactory): Promise<'none' | 'older' | 'ours'> {
  try {
    const known = await factory.databases();
    const version = known.find(({ name }) => name === DATABASE_NAME)?.version;
    if (version === undefined) return 'none';
    return version < DATABASE_VERSION ? 'older' : 'ours';
  } catch {
    return 'ours';
  }
}
