/** The shell: one screen at a time, and the bars that must not be missed. */
import { Bars } from './parts/bars.tsx';
import { lazily } from './parts/lazily.tsx';
import { WeaveScreen } from './screens/weave/weaveScreen.tsx';
import { type Screen, screen } from './state.ts';

const WarpsScreen = lazily(
  async () => (await import('./screens/warps/warpsScreen.tsx')).WarpsScreen,
);
const PlanScreen = lazily(async () => (await import('./screens/plan/planScreen.tsx')).PlanScreen);
const WarpingScreen = lazily(
  async () => (await import('./screens/warping/warpingScreen.tsx')).WarpingScreen,
);
const YarnsScreen = lazily(
  async () => (await import('./screens/yarns/yarnsScreen.tsx')).YarnsScreen,
);

const SCREENS = {
  warps: WarpsScreen,
  weave: WeaveScreen,
  warping: WarpingScreen,
  plan: PlanScreen,
  yarns: YarnsScreen,
} as const satisfies Record<Screen['kind'], unknown>;

export function App() {
  const { kind } = screen.value;
  const Shown = SCREENS[kind];
  return (
    <>
      <Bars />
      <Shown key={kind} />
    </>
  );
}
