import { type Contents, withEvents } from '../../core/backup/contents.ts';
import { theStore, unsavedOf } from '../actions.ts';

/** Everything there is, also what the disk has not taken yet. */
export async function everything(): Promise<Contents> {
  const contents = await theStore().contents();
  return withEvents(
    contents,
    contents.warps.flatMap(({ warp }) => unsavedOf(warp.id)),
  );
}

export const APP_VERSION = import.meta.env.APP_VERSION;
