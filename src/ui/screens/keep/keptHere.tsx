/** How safely everything lies on this device: in how many copies, and what the browser promises. */

import { persistence } from '../../device/persistence.ts';
import { roomLeft } from '../../device/room.ts';
import { t } from '../../language/t.ts';
import { InstallOffer } from '../../parts/installOffer.tsx';
import { storeState } from '../../state.ts';
import { COPIES, PROMISES, roomWords } from './words.ts';

export function KeptHere() {
  const room = roomLeft.value;
  return (
    <section class="keep-part">
      <h2>{t('On this device')}</h2>
      <ul class="keep-facts">
        <li>{COPIES[storeState.value.copies]}</li>
        <li>{PROMISES[persistence.value]}</li>
        {room === null ? null : <li>{roomWords(room)}</li>}
      </ul>
      <InstallOffer />
    </section>
  );
}
