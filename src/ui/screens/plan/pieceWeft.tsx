/** The weft of one piece: its blocks, ready-made orders, and the ways to the wished length. */
import { useMemo, useState } from 'preact/hooks';
import type { Block, Piece } from '../../../core/plan/plan.ts';
import { asDrawnIn, squared } from '../../../core/planner/asDrawnIn.ts';
import { fitLength } from '../../../core/planner/fits.ts';
import { checkedDraft } from '../../draft.ts';
import { t } from '../../language/t.ts';
import { motifForPlan } from '../../motifPages.ts';
import { lazily } from '../../parts/lazily.tsx';
import { ProblemsAt } from '../../parts/problemsAt.tsx';
import { editPlan } from '../../planning.ts';
import { BlocksEditor } from './blocksEditor.tsx';
import { goodSheet } from './figures.ts';
import { FitList } from './fitList.tsx';
import { Fold } from './fold.tsx';
import type { PartProps } from './part.ts';
import { setPiece } from './piecesPart.tsx';

const MotifIntoPlan = lazily(async () => (await import('./motifIntoPlan.tsx')).MotifIntoPlan);

interface PieceWeftProps extends PartProps {
  readonly piece: Piece;
  readonly index: number;
}

export function PieceWeft({ plan, piece, index }: PieceWeftProps) {
  const path = `pieces[${index}].weft`;
  const set = (weft: readonly Block[], about: string | null = null) =>
    setPiece(plan, index, { ...piece, weft }, about);
  return (
    <section class="piece-weft" aria-label={t('Weft')}>
      <h3>{t('Weft')}</h3>
      <ProblemsAt path={path} />
      <BlocksEditor
        blocks={piece.weft}
        yarns={plan.yarns}
        units={plan.units}
        path={path}
        onChange={set}
      />
      <ReadyOrders plan={plan} index={index} onWeft={set} />
      <LengthFit plan={plan} piece={piece} index={index} />
    </section>
  );
}

interface ReadyOrdersProps extends PartProps {
  readonly index: number;
  readonly onWeft: (weft: readonly Block[]) => void;
}

function ReadyOrders({ plan, index, onWeft }: ReadyOrdersProps) {
  const ready = checkedDraft.value?.ok === true;
  const [motif, setMotif] = useState(motifForPlan.peek() !== null);
  return (
    <div class="row">
      <button
        type="button"
        class="button"
        disabled={!ready}
        onClick={() => onWeft(asDrawnIn(plan))}
      >
        {t('As drawn in')}
      </button>
      <button type="button" class="button" disabled={!ready} onClick={() => onWeft(squared(plan))}>
        {t('As drawn in, squared')}
      </button>
      {plan.pieces.map((other, i) =>
        i === index ? null : (
          <button
            type="button"
            key={`${i} ${other.name}`}
            class="button"
            onClick={() => onWeft(other.weft)}
          >
            {t('Copy from {n}. {name}', { n: i + 1, name: other.name })}
          </button>
        ),
      )}
      <button type="button" class="button" disabled={!ready} onClick={() => setMotif(true)}>
        {t('From a motif')}
      </button>
      {motif && ready ? (
        <MotifIntoPlan plan={plan} piece={index} onClose={() => setMotif(false)} />
      ) : null}
    </div>
  );
}

function LengthFit({ plan, piece, index }: PieceWeftProps) {
  const checked = checkedDraft.value;
  const good = checked?.ok ? checked.value : null;
  const { wish } = piece;
  const [open, setOpen] = useState(false);
  const now = goodSheet.value?.pieces[index]?.wish ?? null;
  const fits = useMemo(
    () => (open && wish !== undefined && good !== null ? fitLength(good, index, wish) : []),
    [open, good, index, wish],
  );
  if (now === null) return null;
  return (
    <Fold words={t('Fit to the wished length')} onOpen={setOpen}>
      <FitList
        fits={fits}
        units={plan.units}
        reached={now.reached}
        miss={now.miss}
        onTake={(fit) => editPlan(() => fit.plan)}
      />
    </Fold>
  );
}
