/** What is done before the database is opened: that may lay it out anew. */
import { DATABASE_VERSION } from '../store/schema.ts';
import { versionBefore } from '../store/snapshots/beforeUpgrade.ts';

/** An upgrade changes how everything is laid out: the state before is kept first. */
export async function keepBeforeUpgrade(factory: IDBFactory): Promise<void> {
  const before = await versionBefore(factory);
  // The first screen of a first visit is on its way while the store is made.
  if (before === 0) void import('./cards.ts');
  else if (before < DATABASE_VERSION)
    await (await import('./keeping/snapshots.ts')).keepFirst('migration');
}
