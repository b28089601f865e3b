/** The shell: one screen at a time, and the bars that must not be missed. */
import { Bars } from './parts/bars.tsx';
import { lazily } from './parts/lazily.tsx';
import { WordsAsked } from './parts/words.tsx';
import { WeaveScreen } from './screens/weave/weaveScreen.tsx';
import { arrival, type Screen, screen } from './state.ts';

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
const PaperScreen = lazily(
  async () => (await import('./screens/paper/paperScreen.tsx')).PaperScreen,
);
const ArrivalSheet = lazily(
  async () => (await import('./parts/arrival/arrivalSheet.tsx')).ArrivalSheet,
);
const MeasureScreen = lazily(
  async () => (await import('./screens/measure/measureScreen.tsx')).MeasureScreen,
);
const JournalScreen = lazily(
  async () => (await import('./screens/journal/journalScreen.tsx')).JournalScreen,
);
const MotifsScreen = lazily(
  async () => (await import('./screens/motifs/motifsScreen.tsx')).MotifsScreen,
);

const KeepScreen = lazily(async () => (await import('./screens/keep/keepScreen.tsx')).KeepScreen);

const SCREENS = {
  warps: WarpsScreen,
  weave: WeaveScreen,
  warping: WarpingScreen,
  plan: PlanScreen,
  yarns: YarnsScreen,
  paper: PaperScreen,
  measure: MeasureScreen,
  journal: JournalScreen,
  keep: KeepScreen,
  motifs: MotifsScreen,
} as const satisfies Record<Screen['kind'], unknown>;

export function App() {
  const { kind } = screen.value;
  const Shown = SCREENS[kind];
  return (
    <>
      <Bars />
      <Shown key={kind} />
      <WordsAsked />
      {arrival.value === null ? null : <ArrivalSheet arrival={arrival.value} />}
    </>
  );
}
