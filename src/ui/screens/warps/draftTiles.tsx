/** Plans begun and not yet on the loom. */
import { useEffect, useState } from 'preact/hooks';
import { count } from '../../format.ts';
import { Sheet } from '../../parts/sheet.tsx';
import { drafts, openDraft, removeDraft, type StoredDraft } from '../../planning.ts';

export function DraftTiles() {
  const [all, setAll] = useState<readonly StoredDraft[]>([]);
  useEffect(() => {
    void drafts().then(setAll);
  }, []);
  if (all.length === 0) return null;
  return (
    <section class="warps-group">
      <h2>On the drawing board</h2>
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
        <h3>{name === '' ? 'Without a name' : name}</h3>
        <p>{count(pieces.length, 'piece')}, being planned</p>
      </div>
      <div class="warp-buttons">
        <button type="button" class="button strong" onClick={() => void openDraft(draft.id)}>
          Go on planning
        </button>
        <button type="button" class="button quiet" onClick={() => setRemoving(true)}>
          Remove
        </button>
      </div>
      {removing ? (
        <Sheet title="Remove this draft?" onClose={() => setRemoving(false)}>
          <p>“{name}” goes from this device. This cannot be undone.</p>
          <button
            type="button"
            class="button strong"
            onClick={() => void removeDraft(draft.id).then(onGone)}
          >
            Remove it
          </button>
        </Sheet>
      ) : null}
    </article>
  );
}
