/** Everything at the bench that is not throwing or undoing. */
import { useState } from 'preact/hooks';
import { changeSettings, happen, redo, turnTo } from '../../actions.ts';
import { isDark } from '../../device/theme.ts';
import { shedWord } from '../../format.ts';
import { t } from '../../language/t.ts';
import { lazily } from '../../parts/lazily.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { askAllWords } from '../../parts/words.tsx';
import { canRedo, facts, type Session, session } from '../../state.ts';
import { BlocksPage } from './blocksPage.tsx';
import { byEyeEntries } from './byEye/byEyeEntries.ts';
import { ByEyePage } from './byEye/byEyePage.tsx';
import { clothEntries } from './clothEntries.ts';
import { LengthPage, PicksPage, UnweaveForm } from './countForms.tsx';
import { EndingsPage } from './endings/lazyEndings.ts';
import { LeftPage } from './left/leftPage.tsx';
import { WeighForm } from './left/weighForm.tsx';
import { MeasureForm } from './measureForm.tsx';
import { PlacePage } from './placeByCard.tsx';

const BenchSettings = lazily(
  async () => (await import('./settings/benchSettings.tsx')).BenchSettings,
);
const FellWidthForm = lazily(
  async () => (await import('../measure/fellWidthForm.tsx')).FellWidthForm,
);
const SharePlan = lazily(async () => (await import('../../parts/share/sharePlan.tsx')).SharePlan);

/** Printing is rare: its code is not there before it is asked for. */
async function printNow(): Promise<void> {
  const { printWarp } = await import('../../printing.ts');
  const now = session.peek();
  if (now !== null) printWarp(now.progress);
}

export const PAGES = [
  'menu',
  'eye',
  'measure',
  'width',
  'endings',
  'left',
  'weigh',
  'blocks',
  'picks',
  'length',
  'unweave',
  'place',
  'share',
  'settings',
] as const;
export type Page = (typeof PAGES)[number];
const TITLES: Record<Page, string> = {
  menu: t('At the loom'),
  eye: t('By eye'),
  measure: t('Measure the fell'),
  width: t('Width at the fell'),
  endings: t('Ways to end this piece'),
  left: t('Warp and yarn left'),
  weigh: t('Weigh yarn'),
  blocks: t('Blocks of this piece'),
  picks: t('Several picks at once'),
  length: t('A length woven'),
  unweave: t('Take picks out'),
  place: t('Find my place'),
  share: t('Share this plan'),
  settings: t('Settings'),
};

const WIDE: ReadonlySet<Page> = new Set([
  'menu',
  'eye',
  'measure',
  'endings',
  'left',
  'blocks',
  'share',
  'settings',
]);

export interface MoreSheetProps {
  readonly now: Session;
  /** The page it opens on. */
  readonly first: Page;
  readonly onClose: () => void;
}

export function MoreSheet({ now, first, onClose }: MoreSheetProps) {
  const [page, setPage] = useState<Page>(first);
  const [yarn, setYarn] = useState(0);
  return (
    <Sheet
      title={titleOf(page, now, yarn)}
      onClose={onClose}
      {...(WIDE.has(page) ? { wide: true } : {})}
    >
      <SheetPage
        key={page}
        page={page}
        now={now}
        yarn={yarn}
        onPage={setPage}
        onYarn={setYarn}
        onClose={onClose}
      />
    </Sheet>
  );
}

function titleOf(page: Page, { plan }: Session, yarn: number): string {
  return page === 'weigh'
    ? t('Weigh {yarn}', { yarn: plan.yarns[yarn]?.name ?? '' })
    : TITLES[page];
}

interface PageProps {
  readonly page: Page;
  readonly now: Session;
  /** Index of the yarn to weigh. */
  readonly yarn: number;
  readonly onYarn: (yarn: number) => void;
  readonly onPage: (page: Page) => void;
  readonly onClose: () => void;
}

function SheetPage({ page, now, yarn, onPage, onYarn, onClose }: PageProps) {
  const weigh = (it: number) => {
    onYarn(it);
    onPage('weigh');
  };
  switch (page) {
    case 'menu':
      return <Menu now={now} onPage={onPage} onClose={onClose} />;
    case 'eye':
      return <ByEyePage now={now} onPage={onPage} onClose={onClose} />;
    case 'measure':
      return <MeasureForm now={now} onClose={onClose} />;
    case 'width':
      return <FellWidthForm now={now} onDone={onClose} />;
    case 'endings':
      return <EndingsPage now={now} onDone={onClose} />;
    case 'left':
      return <LeftPage now={now} onWeigh={weigh} />;
    case 'weigh':
      return <WeighForm now={now} yarn={yarn} onDone={() => onPage('left')} />;
    case 'blocks':
      return <BlocksPage now={now} />;
    case 'picks':
      return <PicksPage now={now} onClose={onClose} />;
    case 'length':
      return <LengthPage now={now} onClose={onClose} />;
    case 'unweave':
      return <UnweaveForm now={now} onClose={onClose} />;
    case 'place':
      return <PlacePage progress={now.progress} onDone={onClose} />;
    case 'share':
      return <SharePlan plan={now.plan} warp={now.warp} />;
    case 'settings':
      return <BenchSettings />;
  }
}

function Menu({ now, onPage, onClose }: Pick<PageProps, 'now' | 'onPage' | 'onClose'>) {
  const act = (work: () => void) => () => {
    work();
    onClose();
  };
  return (
    <div class="menu">
      {menuEntries(now).map((entry) => (
        <MenuButton
          key={entry.title}
          {...entry}
          onClick={entry.page === undefined ? act(entry.work) : () => onPage(entry.page)}
        />
      ))}
    </div>
  );
}

export type MenuEntry = { readonly title: string; readonly text: string; readonly off: boolean } & (
  | { readonly page: Page; readonly work?: undefined }
  | { readonly page?: undefined; readonly work: () => void }
);

function menuEntries(now: Session): readonly MenuEntry[] {
  const at = facts.value;
  const woven = at === null;
  const other = woven
    ? ''
    : t('Next pick: {shed}', { shed: shedWord(now.plan.loom.kind, 1 - at.shed) });
  const none = now.progress.pick === 0;
  return [
    { title: t('Redo'), text: t('Give back what was undone'), off: !canRedo.value, work: redo },
    { title: t('Measure'), text: t('The fell, with a ruler or tape'), off: none, page: 'measure' },
    {
      title: t('Width at the fell'),
      text: t('Draw-in is learnt from it'),
      off: none,
      page: 'width',
    },
    { title: t('Endings'), text: t('Where to stop, and what fits'), off: false, page: 'endings' },
    { title: t('Blocks'), text: t('Longer, shorter, end, skip'), off: woven, page: 'blocks' },
    ...clothEntries(now),
    { title: t('Warp and yarn left'), text: t('And weighing yarn'), off: false, page: 'left' },
    { title: t('Other shed'), text: other, off: woven, work: () => happen({ kind: 'otherShed' }) },
    ...byEyeEntries(now),
    { title: t('Several picks'), text: t('Count a few at once'), off: woven, page: 'picks' },
    { title: t('A length woven'), text: t('Picks worked out from it'), off: woven, page: 'length' },
    {
      title: t('Take picks out'),
      text: t('Picks unwoven from the cloth'),
      off: none,
      page: 'unweave',
    },
    { title: t('Find my place'), text: t('By the cloth or a number'), off: false, page: 'place' },
    {
      title: t('Warp advanced'),
      text: t('The fell starts anew'),
      off: false,
      work: () => happen({ kind: 'advanced' }),
    },
    {
      title: t('Journal'),
      text: t('Notes, photos, what happened'),
      off: false,
      work: () => turnTo('journal'),
    },
    turnLight(),
    {
      title: t('On paper'),
      text: t('Cards, tape, the plan as a code'),
      off: false,
      work: () => void printNow(),
    },
    {
      title: t('Share this plan'),
      text: t('As a file, a link or a code'),
      off: false,
      page: 'share',
    },
    { title: t('Words'), text: t('What the trade’s words mean'), off: false, work: askAllWords },
    {
      title: t('Settings'),
      text: t('Light, size, sound, voice, pedals'),
      off: false,
      page: 'settings',
    },
  ];
}

/** Light and dark are two taps away; from then on the device is not followed. */
function turnLight(): MenuEntry {
  const theme = isDark.value ? 'light' : 'dark';
  return {
    title: isDark.value ? t('Light screen') : t('Dark screen'),
    text: isDark.value ? t('Dark ink on a light ground') : t('Light ink on a dark ground'),
    off: false,
    work: () => changeSettings({ theme }),
  };
}

interface MenuButtonProps {
  readonly title: string;
  readonly text: string;
  readonly off: boolean;
  readonly onClick: () => void;
}

function MenuButton({ title, text, off, onClick }: MenuButtonProps) {
  return (
    <button type="button" class="button menu-button" disabled={off} onClick={onClick}>
      <strong>{title}</strong>
      <span>{text}</span>
    </button>
  );
}
