/** Short messages every screen may need. */

import type { StoreTrouble } from '../store/store.ts';
import { t } from './language/t.ts';

export const say = {
  opened: (name: string) => `“${name}” is saved on this device.`,
  nothingToUndo: t('Nothing to undo.'),
  pinned: t('A pin is in at the fell: measure from it later.'),
  noClothToPin: t('There is no cloth to put a pin into yet.'),
  saving: t('saving …'),
  saved: t('saved'),
  slow: t('Saving takes long: the last picks are counted but not on the disk yet.'),
  notSaved: t('not saved'),
  follows: t('Fellmark is open in another window too. This one follows it.'),
  weaveHere: t('Weave here instead'),
  warpHere: t('Warp here instead'),
  updateComes: t('A new version is on its way.'),
  noUpdate: t('No new version was found. Connect to the network and look again.'),
  takeOut: t('Take the data out'),
} as const;

export const TROUBLE: Record<StoreTrouble, string> = {
  quota: t(
    'The device has no room left: new picks are counted but not saved. Free some space, then reload.',
  ),
  'lost-connection': t(
    'The device closed the storage: new picks are counted but not saved. Reload the page.',
  ),
  'newer-data': t(
    'The saved data comes from a newer Fellmark. Update the app; nothing was changed.',
  ),
  blocked: t(
    'An older Fellmark is still open in another window and holds the saved data. Close that window.',
  ),
  refused: t(
    'This browser refuses to store anything: new picks are counted but will be gone when it closes.',
  ),
  unknown: t('Saving failed: new picks are counted but not saved. Reload the page.'),
};
