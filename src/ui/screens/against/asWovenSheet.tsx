/** A piece kept as it was woven, not as it was meant: as a plan, or as a motif. */

import { useState } from 'preact/hooks';
import { weftWovenOf } from '../../../core/bench/byEye/choosing.ts';
import { motifOfStretch } from '../../../core/bench/byEye/stretch.ts';
import { planAsWoven } from '../../../core/journal/againstPlan/planAsWoven.ts';
import { LIMITS } from '../../../core/plan/limits.ts';
import { t } from '../../language/t.ts';
import { showMotifs } from '../../motifPages.ts';
import { keepMotif, newHead } from '../../motifs.ts';
import { MenuEntry } from '../../parts/menuEntry.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { keepAsDraft } from '../../planning.ts';
import type { Session } from '../../state.ts';

export interface AsWovenSheetProps {
  readonly now: Session;
  /** Counted from 0. */
  readonly piece: number;
  readonly onClose: () => void;
}

export function AsWovenSheet({ now, piece, onClose }: AsWovenSheetProps) {
  const [refused, setRefused] = useState(false);
  const begun = now.progress.course.pieces.filter((it) => it.firstPick < now.progress.pick);
  const plan = async (pieces: readonly number[]) => setRefused(!(await keepPlan(now, pieces)));
  return (
    <Sheet title={t('Keep as woven')} onClose={onClose} wide>
      <div class="form">
        <p>
          {t(
            'With the picks that are in the cloth, and as long as it is: its real beat goes with it.',
          )}
        </p>
        {refused ? (
          <p class="problem" role="alert">
            {t('Nothing of its weft is woven yet.')}
          </p>
        ) : null}
        <div class="menu">
          <MenuEntry
            title={t('A plan of this piece')}
            text={t('A new warp to weave it once more')}
            onUse={() => void plan([piece])}
          />
          {begun.length < 2 ? null : (
            <MenuEntry
              title={t('A plan of all pieces')}
              text={t('Every piece that is begun, as it was woven')}
              onUse={() => void plan(begun.map((it) => it.index))}
            />
          )}
          <MenuEntry
            title={t('A motif')}
            text={t('Its weft without the hems, on the shelf')}
            onUse={() => (keepWeft(now, piece) ? showMotifs() : setRefused(true))}
          />
        </div>
      </div>
    </Sheet>
  );
}

async function keepPlan({ progress, plan }: Session, pieces: readonly number[]): Promise<boolean> {
  const woven = planAsWoven(progress.course, pieces, progress.pick);
  if (woven === null) return false;
  const name = t('{name}, as woven', { name: plan.name.slice(0, LIMITS.name - 16) });
  return keepAsDraft({ ...woven, name });
}

function keepWeft({ progress, plan, warp }: Session, piece: number): boolean {
  const { course, pick } = progress;
  const weft = weftWovenOf(course, piece, pick);
  const name = plan.pieces[piece]?.name ?? '';
  if (weft === null) return false;
  const from = { warp: warp.name, piece: name };
  return keepMotif(motifOfStretch(course, weft, { ...newHead(), name, from }));
}
