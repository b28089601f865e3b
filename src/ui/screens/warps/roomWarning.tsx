/** Says when this device has hardly any room left, before something does not go in any more. */
import { LITTLE_ROOM, roomLeft } from '../../device/room.ts';
import { inOurNumbers } from '../../format.ts';
import { t } from '../../language/t.ts';

export function RoomWarning() {
  const room = roomLeft.value;
  if (room === null || room >= LITTLE_ROOM) return null;
  const left = inOurNumbers((room / 1_000_000).toFixed(1));
  return (
    <p class="notice" role="status">
      {t(
        'This device has {left} MB left for Fellmark. Photos may not go in any more: free some space, and save a backup.',
        { left },
      )}
    </p>
  );
}
