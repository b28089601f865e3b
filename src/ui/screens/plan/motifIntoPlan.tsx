/** A motif of the shelf put into the weft of a piece: which one, in which yarns, where. */
import { useEffect, useState } from 'preact/hooks';
import { yarnsFor } from '../../../core/bench/byEye/weaveAgain.ts';
import type { Motif } from '../../../core/plan/motif.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import type { KeptBy } from '../../../core/planner/motif/changes.ts';
import { type IntoPlan, withMotif } from '../../../core/planner/motif/intoPlan.ts';
import { motifForPlan, showMotifs } from '../../motifPages.ts';
import { loadMotifs, motifShelf } from '../../motifs.ts';
import { Choice } from '../../parts/choice.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { editPlan } from '../../planning.ts';
import '../../style/motifs.css';
import { t } from '../../language/t.ts';
import { KeptByChoice } from '../motifs/keptBy.tsx';
import { MotifPicture } from '../motifs/motifPicture.tsx';
import { NO_MOTIF, sizeWords } from '../motifs/words.ts';
import { type Letters, YarnRows } from '../motifs/yarnRows.tsx';

export interface MotifIntoPlanProps {
  readonly plan: Plan;
  /** Counted from 0. */
  readonly piece: number;
  readonly onClose: () => void;
}

export function MotifIntoPlan({ plan, piece, onClose }: MotifIntoPlanProps) {
  const [motif, setMotif] = useState<Motif | null>(
    () => motifShelf.peek().find((it) => it.id === motifForPlan.peek()) ?? null,
  );
  useEffect(() => {
    motifForPlan.value = null;
    void loadMotifs();
  }, []);
  return (
    <Sheet title={motif === null ? t('From a motif') : motif.name} onClose={onClose} wide>
      {motif === null ? (
        <Motifs plan={plan} onChoose={setMotif} />
      ) : (
        <PutIn plan={plan} piece={piece} motif={motif} onDone={onClose} />
      )}
    </Sheet>
  );
}

interface MotifsProps {
  readonly plan: Plan;
  readonly onChoose: (motif: Motif) => void;
}

function Motifs({ plan, onChoose }: MotifsProps) {
  const motifs = motifShelf.value;
  if (motifs.length === 0) return <p>{NO_MOTIF}</p>;
  return (
    <div class="motif-choices">
      {motifs.map((motif) => (
        <button
          type="button"
          key={motif.id}
          class="button motif-choice"
          onClick={() => onChoose(motif)}
        >
          <MotifPicture motif={motif} />
          <span>
            <strong>{motif.name}</strong>
            <br />
            {sizeWords(motif, plan.units)}
          </span>
        </button>
      ))}
      <button type="button" class="button quiet" onClick={showMotifs}>
        {t('To the shelf of motifs')}
      </button>
    </div>
  );
}

interface PutInProps {
  readonly plan: Plan;
  readonly piece: number;
  readonly motif: Motif;
  readonly onDone: () => void;
}

function PutIn({ plan, piece, motif, onDone }: PutInProps) {
  const [letters, setLetters] = useState<Letters>(() => yarnsFor(motif, plan));
  const [by, setBy] = useState<KeptBy>('picks');
  const [how, setHow] = useState<IntoPlan['how']>('after');
  const [byPicks, byLength] = (['picks', 'length'] as const).map((kept) =>
    withMotif(plan, piece, motif, { letters, by: kept, how }),
  );
  const next = by === 'picks' ? byPicks : byLength;
  const isBeatSame =
    JSON.stringify(byPicks?.pieces[piece]?.weft) === JSON.stringify(byLength?.pieces[piece]?.weft);
  return (
    <div class="form motif-again">
      <MotifPicture motif={motif} />
      <YarnRows
        motif={motif}
        yarns={plan.yarns}
        letters={letters}
        onLetters={setLetters}
        none={t('Its own yarn')}
      />
      {isBeatSame ? null : <KeptByChoice chosen={by} onChoose={setBy} />}
      <Choice
        label={t('Where')}
        chosen={how}
        onChoose={setHow}
        options={[
          { value: 'after', words: t('Behind the blocks') },
          { value: 'through', words: t('Through the whole piece') },
        ]}
      />
      <button
        type="button"
        class="button strong"
        disabled={next === null || next === undefined}
        onClick={() => {
          if (next === null || next === undefined) return;
          editPlan(() => next);
          onDone();
        }}
      >
        {t('Put it in')}
      </button>
    </div>
  );
}
