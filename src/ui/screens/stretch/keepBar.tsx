/** What becomes of the chosen stretch: kept under a name, or woven again at once. */

import { useState } from 'preact/hooks';
import { motifOfStretch, type Stretch } from '../../../core/bench/byEye/stretch.ts';
import { LIMITS } from '../../../core/plan/limits.ts';
import type { Motif } from '../../../core/plan/motif.ts';
import { t } from '../../language/t.ts';
import { keepMotif, motifShelf, newHead } from '../../motifs.ts';
import { Sheet } from '../../parts/sheet.tsx';
import { notice, type Session } from '../../state.ts';
import { AgainPage } from '../motifs/againPage.tsx';
import { NamePage } from '../motifs/namePage.tsx';

export interface KeepBarProps {
  readonly now: Session;
  readonly piece: number;
  readonly stretch: Stretch;
  /** How large it is, in words. */
  readonly size: string;
}

type Open = { readonly kind: 'name' | 'again'; readonly motif: Motif };

export function KeepBar({ now, piece, stretch, size }: KeepBarProps) {
  const [open, setOpen] = useState<Open | null>(null);
  const motif = () => {
    const name = t('Motif {n}', { n: motifShelf.peek().length + 1 });
    const from = { warp: now.warp.name, piece: now.plan.pieces[piece]?.name ?? '' };
    return motifOfStretch(now.progress.course, stretch, { ...newHead(), name, from });
  };
  return (
    <div class="keep-bar">
      <p class="keep-size" role="status">
        {size}
        {notice.value === null ? null : <span class="keep-told">{notice.value}</span>}
      </p>
      <button
        type="button"
        class="button strong"
        onClick={() => setOpen({ kind: 'name', motif: motif() })}
      >
        {t('Keep as a motif')}
      </button>
      <button
        type="button"
        class="button"
        onClick={() => setOpen({ kind: 'again', motif: motif() })}
      >
        {t('Weave it again')}
      </button>
      {open === null ? null : <OpenSheet open={open} onClose={() => setOpen(null)} />}
    </div>
  );
}

interface OpenSheetProps {
  readonly open: Open;
  readonly onClose: () => void;
}

function OpenSheet({ open: { kind, motif }, onClose }: OpenSheetProps) {
  if (kind === 'again') {
    return (
      <Sheet title={t('Weave it again')} onClose={onClose} wide>
        <AgainPage motif={motif} />
      </Sheet>
    );
  }
  const keep = (name: string) => {
    const kept = keepMotif({ ...motif, name: name.slice(0, LIMITS.name) });
    notice.value = kept
      ? t('“{name}” is on the shelf.', { name })
      : t('This stretch cannot be kept.');
    onClose();
  };
  return (
    <Sheet title={t('Keep as a motif')} onClose={onClose}>
      <NamePage name={motif.name} words={t('Keep it')} onName={keep} />
    </Sheet>
  );
}
