/** How the warp is put on and from where it is seen; and what else is wanted now and then. */
import { useState } from 'preact/hooks';
import type { Viewpoint, WarpingMethod, WarpingWay } from '../../../core/plan/warping/list.ts';
import { warpingMethods } from '../../../core/plan/warping.ts';
import { redo } from '../../actions.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { Sheet } from '../../parts/sheet.tsx';
import { canRedo } from '../../state.ts';
import { BenchSettings } from '../weave/settings/benchSettings.tsx';
import { Before } from './before.tsx';
import type { Work } from './stepWords.ts';
import { startList } from './ticking.ts';

const METHOD_WORDS: Record<WarpingMethod, string> = {
  direct: t('Loops to a peg'),
  ends: t('End by end'),
};

export interface WaySheetProps {
  readonly work: Work;
  readonly way: WarpingWay;
  readonly done: number;
  readonly onSeenFrom: (seenFrom: Viewpoint) => void;
  readonly onClose: () => void;
}

export function WaySheet({ work, way, done, onSeenFrom, onClose }: WaySheetProps) {
  return (
    <Sheet title={t('Warping')} onClose={onClose}>
      <div class="form">
        <Choice
          label={t('You look from')}
          chosen={way.seenFrom}
          onChoose={onSeenFrom}
          options={[
            { value: 'front', words: t('The front') },
            { value: 'back', words: t('The back') },
          ]}
        />
        <MethodChoice work={work} way={way} done={done} />
        <button
          type="button"
          class="button"
          disabled={!canRedo.value}
          onClick={() => {
            redo();
            onClose();
          }}
        >
          {t('Redo')}
        </button>
        <Before work={work} />
        <BenchSettings />
      </div>
    </Sheet>
  );
}

/** Another method is another list: with steps already ticked that is asked once more. */
function MethodChoice({ work, way, done }: Pick<WaySheetProps, 'work' | 'way' | 'done'>) {
  const [wanted, setWanted] = useState<WarpingMethod | null>(null);
  const methods = warpingMethods(work.plan);
  const choose = (method: WarpingMethod) => {
    if (method === way.method) setWanted(null);
    else if (done === 0) startList({ ...way, method });
    else setWanted(method);
  };
  if (methods.length < 2) return null;
  return (
    <>
      <Choice
        label={t('Put on')}
        chosen={wanted ?? way.method}
        onChoose={choose}
        options={methods.map((value) => ({ value, words: METHOD_WORDS[value] }))}
      />
      {wanted === null ? null : (
        <div class="offer">
          <p>
            {t(
              'That is another list and begins anew: {n, plural, one {# step} other {# steps}} ticked would be taken back.',
              { n: done },
            )}
          </p>
          <button
            type="button"
            class="button strong"
            onClick={() => {
              startList({ ...way, method: wanted });
              setWanted(null);
            }}
          >
            {t('Begin anew')}
          </button>
        </div>
      )}
    </>
  );
}
