/** A motif woven again now: on which warp, in which yarns, how often. */

import { useEffect, useState } from 'preact/hooks';
import { pieceAt } from '../../../core/bench/pickAt.ts';
import type { Progress } from '../../../core/bench/progress.ts';
import type { Motif } from '../../../core/plan/motif.ts';
import { refreshCards } from '../../cards.ts';
import { t } from '../../language/t.ts';
import { session, warpCards } from '../../state.ts';
import { AgainForm } from './againForm.tsx';

/** A warp there is something to weave on. */
interface OnLoom {
  readonly id: string;
  readonly name: string;
  readonly progress: Progress;
}

export function AgainPage({ motif }: { readonly motif: Motif }) {
  const here = sessionOnLoom();
  const [chosen, setChosen] = useState<string | null>(here?.id ?? null);
  useEffect(() => {
    if (here === null) void refreshCards();
  }, []);
  const warps = here === null ? warpsOnLoom() : [here];
  const [only] = warps.length === 1 ? warps : [];
  const warp = warps.find((it) => it.id === chosen) ?? only;
  if (warp !== undefined)
    return <AgainForm key={warp.id} motif={motif} warp={warp.id} progress={warp.progress} />;
  if (warps.length === 0)
    return (
      <p>{t('There is no warp on the loom. Put a plan on the loom, or start a warp from it.')}</p>
    );
  return (
    <div class="form">
      <p>{t('On which warp?')}</p>
      {warps.map(({ id, name, progress }) => (
        <button type="button" key={id} class="button" onClick={() => setChosen(id)}>
          {name}, {pieceName(progress)}
        </button>
      ))}
    </div>
  );
}

function sessionOnLoom(): OnLoom | null {
  const now = session.value;
  if (now === null || now.progress.cutOff) return null;
  return { id: now.warp.id, name: now.plan.name, progress: now.progress };
}

function warpsOnLoom(): readonly OnLoom[] {
  return (warpCards.value ?? []).flatMap(({ warp, progress }) =>
    progress === null || progress.cutOff ? [] : [{ id: warp.id, name: warp.name, progress }],
  );
}

function pieceName({ course, pick }: Progress): string {
  return course.plan.pieces[pieceAt(course, pick).index]?.name ?? '';
}
