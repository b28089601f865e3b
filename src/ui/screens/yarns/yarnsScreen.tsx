/** The shelf: the yarns and heddles there are, and what the warps take of them. */
import { useEffect, useState } from 'preact/hooks';
import type { ShelfHeddle, ShelfYarn } from '../../../core/plan/shelf.ts';
import { changeSettings, showWarps } from '../../actions.ts';
import { keepFirst } from '../../keeping/snapshots.ts';
import { Choice } from '../../parts/choice.tsx';
import {
  heddleShelf,
  loadShelf,
  putBack,
  type ShelfThing,
  takenOff,
  takeOff,
  yarnShelf,
} from '../../shelf.ts';
import { followed, settings } from '../../state.ts';
import '../../style/fields.css';
import '../../style/yarns.css';
import { t } from '../../language/t.ts';
import { HeddleSheet } from './heddleSheet.tsx';
import { HeddleTile } from './heddleTile.tsx';
import { WeighSheet } from './weighSheet.tsx';
import { YarnSheet } from './yarnSheet.tsx';
import { YarnTile } from './yarnTile.tsx';

/** The sheet that is open; without its yarn or heddle it adds one. */
type Open =
  | { readonly kind: 'yarn'; readonly of?: ShelfYarn }
  | { readonly kind: 'weigh'; readonly of: ShelfYarn }
  | { readonly kind: 'heddle'; readonly of?: ShelfHeddle };

export function YarnsScreen() {
  const [open, setOpen] = useState<Open | null>(null);
  // Again when another window has changed it.
  const news = followed.value;
  useEffect(() => {
    void loadShelf();
  }, [news]);
  return (
    <main class="column shelf">
      <header class="column-head shelf-head">
        <button type="button" class="button" onClick={() => void showWarps()}>
          {t('‹ Warps')}
        </button>
        <h1>{t('Yarns')}</h1>
        <UnitsChoice />
      </header>
      <TakenOff />
      <Yarns onOpen={setOpen} />
      <Heddles onOpen={setOpen} />
      {open === null ? null : <OpenSheet open={open} onClose={() => setOpen(null)} />}
    </main>
  );
}

function UnitsChoice() {
  return (
    <Choice
      label={t('Weights and lengths')}
      chosen={settings.value.units}
      onChoose={(units) => changeSettings({ units })}
      options={[
        { value: 'inch', words: t('oz, in') },
        { value: 'metric', words: t('g, cm') },
      ]}
    />
  );
}

interface ListProps {
  readonly onOpen: (open: Open) => void;
}

function Yarns({ onOpen }: ListProps) {
  const yarns = yarnShelf.value;
  return (
    <section class="shelf-group">
      <h2 class="unseen">{t('On the shelf')}</h2>
      {yarns.length === 0 ? (
        <p class="lead">
          {t(
            'Put your cones here, weighed or not. A plan then takes them from the shelf, and you see what is left, what is planned, and where it will not last.',
          )}
        </p>
      ) : (
        <ul class="shelf-list">
          {yarns.map((yarn) => (
            <YarnTile
              key={yarn.id}
              yarn={yarn}
              onWeigh={() => onOpen({ kind: 'weigh', of: yarn })}
              onChange={() => onOpen({ kind: 'yarn', of: yarn })}
            />
          ))}
        </ul>
      )}
      <button type="button" class="button strong" onClick={() => onOpen({ kind: 'yarn' })}>
        {t('Add a yarn')}
      </button>
    </section>
  );
}

function Heddles({ onOpen }: ListProps) {
  return (
    <section class="shelf-group">
      <h2>{t('Heddles and reeds')}</h2>
      <ul class="shelf-list shelf-heddles">
        {heddleShelf.value.map((heddle) => (
          <HeddleTile
            key={heddle.id}
            heddle={heddle}
            onChange={() => onOpen({ kind: 'heddle', of: heddle })}
          />
        ))}
      </ul>
      <button type="button" class="button" onClick={() => onOpen({ kind: 'heddle' })}>
        {t('Add a heddle')}
      </button>
    </section>
  );
}

function OpenSheet({ open, onClose }: { readonly open: Open; readonly onClose: () => void }) {
  const remove = (thing: ShelfThing) => {
    onClose();
    // Can be put back here until the screen is left, and from the snapshot for thirty days.
    void keepFirst('removal', thing.it.name).then(() => takeOff(thing));
  };
  switch (open.kind) {
    case 'weigh':
      return <WeighSheet yarn={open.of} onClose={onClose} />;
    case 'yarn':
      return <YarnSheet yarn={open.of ?? null} onRemove={remove} onClose={onClose} />;
    case 'heddle':
      return <HeddleSheet heddle={open.of ?? null} onRemove={remove} onClose={onClose} />;
  }
}

/** What was just removed, and the one tap that brings it back. */
function TakenOff() {
  const thing = takenOff.value;
  return (
    <div role="status">
      {thing === null ? null : (
        <div class="offer">
          <p>{t('“{name}” is off the shelf.', { name: thing.it.name })}</p>
          <button type="button" class="button" onClick={putBack}>
            {t('Put it back')}
          </button>
        </div>
      )}
    </div>
  );
}
