/** Plans begun and not yet on the loom. */
import { useEffect, useState } from 'preact/hooks';
import { lookAtShelf, type StoredDraft, shelved } from '../../drafts.ts';
import { t } from '../../language/t.ts';
import { RemoveSheet } from './lazyRemoveSheet.ts';

const openDraft = async (id: string) => (await import('../../planning.ts')).openDraft(id);

/** They come with the cards; looked at again, as one may still have been written. */
export function DraftTiles() {
  const all = shelved.value;
  useEffect(() => void lookAtShelf(), []);
  if (all.length === 0) return null;
  return (
    <section class="warps-group">
      <h2>{t('On the drawing board')}</h2>
      {all.map((draft) => (
        <DraftTile key={draft.id} draft={draft} />
      ))}
    </section>
  );
}

function DraftTile({ draft }: { readonly draft: StoredDraft }) {
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
        />
      ) : null}
    </article>
  );
}
