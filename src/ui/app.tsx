/** The shell: one screen at a time, and the bar that must not be missed. */
import { say, TROUBLE } from './messages.ts';
import { lazily } from './parts/lazily.tsx';
import { WeaveScreen } from './screens/weave/weaveScreen.tsx';
import { arrival, type Screen, savingSlowly, screen, trouble } from './state.ts';

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
const MeasureScreen = lazily(
  async () => (await import('./screens/measure/measureScreen.tsx')).MeasureScreen,
);
const JournalScreen = lazily(
  async () => (await import('./screens/journal/journalScreen.tsx')).JournalScreen,
);
const PaperScreen = lazily(
  async () => (await import('./screens/paper/paperScreen.tsx')).PaperScreen,
);
const ArrivalSheet = lazily(
  async () => (await import('./parts/arrival/arrivalSheet.tsx')).ArrivalSheet,
);

const SCREENS = {
  warps: WarpsScreen,
  weave: WeaveScreen,
  warping: WarpingScreen,
  plan: PlanScreen,
  yarns: YarnsScreen,
  paper: PaperScreen,
  measure: MeasureScreen,
  journal: JournalScreen,
} as const satisfies Record<Screen['kind'], unknown>;

export function App() {
  const { kind } = screen.value;
  const Shown = SCREENS[kind];
  return (
    <>
      <TroubleBar />
      <Shown key={kind} />
      {arrival.value === null ? null : <ArrivalSheet arrival={arrival.value} />}
    </>
  );
}

function TroubleBar() {
  const words = trouble.value === null ? say.slow : TROUBLE[trouble.value];
  if (trouble.value === null && !savingSlowly.value) return null;
  return (
    <p class="trouble" role="alert">
      {words}
    </p>
  );
}
