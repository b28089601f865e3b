/** Short messages every screen may need. */
import type { StoreTrouble } from '../store/store.ts';

export const say = {
  opened: (name: string) => `“${name}” is saved on this device.`,
  nothingToUndo: 'Nothing to undo.',
  pinned: 'A pin is in at the fell: measure from it later.',
  noClothToPin: 'There is no cloth to put a pin into yet.',
  saving: 'saving …',
  saved: 'saved',
  slow: 'Saving takes long: the last picks are counted but not on the disk yet.',
  notSaved: 'not saved',
} as const;

export const TROUBLE: Record<StoreTrouble, string> = {
  quota:
    'The device has no room left: new picks are counted but not saved. Free some space, then reload.',
  'lost-connection':
    'The device closed the storage: new picks are counted but not saved. Reload the page.',
  'newer-data': 'The saved data comes from a newer Fellmark. Update the app; nothing was changed.',
  refused:
    'This browser refuses to store anything: new picks are counted but will be gone when it closes.',
  unknown: 'Saving failed: new picks are counted but not saved. Reload the page.',
};
