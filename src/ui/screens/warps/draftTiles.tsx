/** Plans begun and not yet on the loom. */
import { useEffect, useState } from 'preact/hooks';
import { t } from '../../language/t.ts';
import { drafts, openDraft, type StoredDraft } from '../../planning.ts';
import { warpCards } from '../../state.ts';
import { RemoveSheet } from './removeSheet.tsx';

export function DraftTiles() {
  const [all, setAll] = useState<readonly StoredDraft[]>([]);
  // Whatever was put back comes with new cards.
  const cards = warpCards.value;
  useEffect(() => {
    if (cards !== null) void drafts().then(setAll);
  }, [cards]);
  if (all.length === 0) return null;
  return (
    <section class="warps-group">
      <h2>{t('On the drawing board')}</h2>
      {all.map((draft) => (
        <DraftTile
          key={draft.id}
          draft={draft}
          onGone={() => setAll(all.filter((it) => it.id !== draft.id))}
        />
      ))}
    </section>
  );
}

interface DraftTileProps {
  readonly draft: StoredDraft;
  readonly onGone: () => void;
}

function DraftTile({ draft, onGone }: DraftTileProps) {
  const [removing, setRemoving] = useState(false);
  const { name, pieces } = draft.plan;
  return (
    <article class="warp-tile">
      <div class="warp-words">
        <h3>{name === '' ? t('Without a name') : name}</h3>
        <p>
          {t('{n, plural, one {# piece} other {# pieces}}, being planned', { n: pieces.length })}
        </p>
      </div>
      <div class="warp-buttons">
        <button type="button" class="button strong" onClick={() => void openDraft(draft.id)}>
          {t('Go on planning')}
        </button>
        <button type="button" class="button quiet" onClick={() => setRemoving(true)}>
          {t('Remove')}
        </button>
      </div>
      {removing ? (
        <RemoveSheet
          title={t('Remove this draft?')}
          words={t('“{name}” goes from this device.', { name })}
          things={{ name, warps: [], drafts: [draft] }}
          onClose={() => setRemoving(false)}
          onDone={onGone}
        />
      ) : null}
    </article>
  );
}
