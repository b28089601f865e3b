/** One motif and all that can be done with it, page by page in one sheet. */

import { useState } from 'preact/hooks';
import type { Motif } from '../../../core/plan/motif.ts';
import { t } from '../../language/t.ts';
import { changeMotif, removeMotif } from '../../motifs.ts';
import { MenuEntry } from '../../parts/menuEntry.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { AgainPage } from './againPage.tsx';
import { ChangePage } from './changePage.tsx';
import { NamePage } from './namePage.tsx';
import { PlansPage, WarpPage } from './warpPage.tsx';

export type SheetPage = 'menu' | 'again' | 'change' | 'warp' | 'plans' | 'rename';

const TITLES: Record<SheetPage, (name: string) => string> = {
  menu: (name) => name,
  again: (name) => t('Weave “{name}” again', { name }),
  change: (name) => t('Another “{name}”', { name }),
  warp: (name) => t('A new warp from “{name}”', { name }),
  plans: (name) => t('“{name}” in a plan', { name }),
  rename: (name) => t('Rename “{name}”', { name }),
};

export interface MotifSheetProps {
  readonly motif: Motif;
  readonly first: SheetPage;
  readonly onClose: () => void;
}

export function MotifSheet({ motif, first, onClose }: MotifSheetProps) {
  const [page, setPage] = useState(first);
  return (
    <Sheet title={TITLES[page](motif.name)} onClose={onClose} wide>
      <Page key={page} page={page} motif={motif} onPage={setPage} onClose={onClose} />
    </Sheet>
  );
}

interface PageProps extends Omit<MotifSheetProps, 'first'> {
  readonly page: SheetPage;
  readonly onPage: (page: SheetPage) => void;
}

function Page({ page, motif, onPage, onClose }: PageProps) {
  switch (page) {
    case 'menu':
      return <Menu motif={motif} onPage={onPage} onClose={onClose} />;
    case 'again':
      return <AgainPage motif={motif} />;
    case 'change':
      return <ChangePage motif={motif} onDone={onClose} />;
    case 'warp':
      return <WarpPage motif={motif} />;
    case 'plans':
      return <PlansPage motif={motif} />;
    case 'rename':
      return (
        <NamePage
          name={motif.name}
          words={t('Rename it')}
          onName={(name) => {
            changeMotif({ ...motif, name });
            onClose();
          }}
        />
      );
  }
}

const ENTRIES: readonly (readonly [SheetPage, string, string])[] = [
  ['again', t('Weave it again now'), t('Next on the loom, once or through the piece')],
  ['change', t('Mirror, colours, sett'), t('Another of it, or this one changed')],
  ['warp', t('A new warp from it'), t('Planned on its own warp, through a piece')],
  ['plans', t('Into a plan'), t('Among the blocks of a piece')],
  ['rename', t('Rename'), t('The name it is kept under')],
];

function Menu({ motif, onPage, onClose }: Omit<PageProps, 'page'>) {
  const remove = () => {
    removeMotif(motif);
    onClose();
  };
  return (
    <div class="menu">
      {ENTRIES.map(([page, title, text]) => (
        <MenuEntry key={page} title={title} text={text} onUse={() => onPage(page)} />
      ))}
      <MenuEntry title={t('Delete')} text={t('Off the shelf; it can be put back')} onUse={remove} />
    </div>
  );
}
