/** What must not be missed, above every screen: what is wrong in red, and which window writes. */

import { writeHere } from '../device/windows.ts';
import { say, TROUBLE } from '../messages.ts';
import { isStuck, savingSlowly, screen, storeState, trouble } from '../state.ts';
import { lazily } from './lazily.tsx';

const LossBar = lazily(async () => (await import('./lossBar.tsx')).LossBar);
const TroubleHelp = lazily(async () => (await import('./troubleHelp.tsx')).TroubleHelp);

export function Bars() {
  return (
    <div class="bars">
      <TroubleBar />
      {storeState.value.loss === null ? null : <LossBar loss={storeState.value.loss} />}
      <FollowBar />
    </div>
  );
}

function TroubleBar() {
  const now = trouble.value ?? storeState.value.trouble?.trouble ?? null;
  if (now === null && !savingSlowly.value) return null;
  return (
    <div class="bar trouble" role="alert">
      <p>{now === null ? say.slow : TROUBLE[now]}</p>
      {now === 'newer-data' || isStuck.value ? (
        <TroubleHelp helps={now === 'newer-data' ? 'update' : 'reload'} />
      ) : null}
    </div>
  );
}

/** Only where something is done by hand: elsewhere a window that follows looks and works the same. */
function FollowBar() {
  const { kind } = screen.value;
  const isAtLoom = kind === 'weave' || kind === 'warping';
  if (storeState.value.pen !== 'elsewhere' || !isAtLoom) return null;
  return (
    <div class="bar follow" role="status">
      <p>{say.follows}</p>
      <button type="button" class="button strong bench" onClick={() => void writeHere()}>
        {kind === 'weave' ? say.weaveHere : say.warpHere}
      </button>
    </div>
  );
}
