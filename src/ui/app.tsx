/** The shell: one screen at a time, and the bars that must not be missed. */
import { TROUBLE } from './messages.ts';
import { lazily } from './parts/lazily.tsx';
import { WeaveScreen } from './screens/weave/weaveScreen.tsx';
import { screen, trouble } from './state.ts';

const WarpsScreen = lazily(
  async () => (await import('./screens/warps/warpsScreen.tsx')).WarpsScreen,
);

export function App() {
  return (
    <>
      <TroubleBar />
      {screen.value.kind === 'weave' ? <WeaveScreen key="weave" /> : <WarpsScreen key="warps" />}
    </>
  );
}

function TroubleBar() {
  if (trouble.value === null) return null;
  return (
    <p class="trouble" role="alert">
      {TROUBLE[trouble.value]}
    </p>
  );
}
