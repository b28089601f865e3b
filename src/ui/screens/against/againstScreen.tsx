/** For every piece: what was planned, what was thrown, block by block, and how they differ. */

import { useMemo, useState } from 'preact/hooks';
import {
  againstPlan,
  type PieceAgainstPlan,
} from '../../../core/journal/againstPlan/againstPlan.ts';
import { t } from '../../language/t.ts';
import { chooseStretch } from '../../motifPages.ts';
import { type Screen, type Session, session } from '../../state.ts';
import '../../style/motifs.css';
import '../../style/against.css';
import { BackButton } from '../motifs/backButton.tsx';
import { PieceTabs } from '../stretch/pieceTabs.tsx';
import { AgainstTable } from './againstTable.tsx';
import { AsWovenSheet } from './asWovenSheet.tsx';
import { pieceWords } from './words.ts';

export interface AgainstScreenProps {
  /** The piece shown first, counted from 0. */
  readonly first: number;
  readonly back: Screen;
}

export function AgainstScreen({ first, back }: AgainstScreenProps) {
  const now = session.value;
  const [chosen, setChosen] = useState(first);
  const pieces = useMemo(
    () => (now === null ? [] : againstPlan(now.base, now.log)),
    [now?.progress],
  );
  const piece = pieces[chosen] ?? pieces[0];
  if (now === null || piece === undefined) return null;
  return (
    <main class="column motifs against">
      <header class="column-head motifs-head">
        <BackButton back={back} />
        <h1>{t('Planned and woven')}</h1>
        <button type="button" class="button" onClick={() => print()}>
          {t('Print')}
        </button>
      </header>
      <PieceTabs
        plan={{ ...now.plan, pieces: pieces.map((it, i) => named(now, it, i)) }}
        pieces={pieces.map((it) => it.piece)}
        chosen={piece.piece}
        onChoose={setChosen}
      />
      <Whole key={piece.piece} now={now} piece={piece} />
    </main>
  );
}

/** A piece that was dropped has its name from the plan as it was. */
function named(now: Session, { name }: PieceAgainstPlan, i: number) {
  const piece = now.plan.pieces[i] ?? now.base.pieces[i];
  if (piece === undefined) throw new Error(`named: got piece ${i}, wanted one of the plan`);
  return { ...piece, name };
}

function Whole({ now, piece }: { readonly now: Session; readonly piece: PieceAgainstPlan }) {
  const [keeping, setKeeping] = useState(false);
  const isWoven = piece.woven.picks > 0;
  return (
    <>
      <section class="against-whole" aria-label={piece.name}>
        <h2>{piece.name}</h2>
        {pieceWords(piece, now.plan.units).map((words) => (
          <p key={words}>{words}</p>
        ))}
        <div class="against-tools">
          <button
            type="button"
            class="button strong"
            disabled={!isWoven}
            onClick={() => setKeeping(true)}
          >
            {t('Keep as woven')}
          </button>
          <button
            type="button"
            class="button"
            disabled={!isWoven}
            onClick={() => chooseStretch(piece.piece)}
          >
            {t('Choose a stretch')}
          </button>
        </div>
      </section>
      <AgainstTable now={now} piece={piece} />
      {keeping ? (
        <AsWovenSheet now={now} piece={piece.piece} onClose={() => setKeeping(false)} />
      ) : null}
    </>
  );
}
