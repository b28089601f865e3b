/** Picks counted at once, worked out from a length, or taken out of the cloth again. */
import { useState } from 'preact/hooks';
import { happen } from '../../actions.ts';
import { t } from '../../language/t.ts';
import { Stepper } from '../../parts/stepper.tsx';
import type { Session } from '../../state.ts';
import { isOpenHere } from './byEye/byEyeEntries.ts';
import { LengthByEye, PicksByEye } from './byEye/countByEye.tsx';
import { CountLength, CountPicks } from './countParts.tsx';

interface FormProps {
  readonly now: Session;
  readonly onClose: () => void;
}

/** As planned, or by eye of the yarn that is chosen. */
export function PicksPage(props: FormProps) {
  return isOpenHere(props.now) ? <PicksByEye {...props} /> : <PicksForm {...props} />;
}

export function LengthPage(props: FormProps) {
  return isOpenHere(props.now) ? <LengthByEye {...props} /> : <LengthForm {...props} />;
}

function PicksForm({ now, onClose }: FormProps) {
  const left = now.progress.course.picks - now.progress.pick;
  return (
    <CountPicks
      most={left}
      quick={[2, 4, 10, 20].filter((it) => it <= left)}
      onCount={(picks) => {
        happen({ kind: 'thrown', picks });
        onClose();
      }}
    />
  );
}

export function UnweaveForm({ now, onClose }: FormProps) {
  const [picks, setPicks] = useState(1);
  return (
    <div class="form">
      <p>
        {t(
          'Picks taken out of the cloth, the last one first. Shed and shuttles go back with them.',
        )}
      </p>
      <Stepper
        label={t('Picks taken out')}
        value={picks}
        least={1}
        most={Math.max(1, now.progress.pick)}
        onChange={setPicks}
      />
      <button
        type="button"
        class="button strong"
        onClick={() => {
          happen({ kind: 'takenOut', picks });
          onClose();
        }}
      >
        {t('Take out {picks}', { picks })}
      </button>
    </div>
  );
}

function LengthForm({ now, onClose }: FormProps) {
  return (
    <CountLength
      units={now.plan.units}
      onCount={(loomLength) => {
        happen({ kind: 'woveLength', loomLength });
        onClose();
      }}
    >
      <p>
        {t(
          'How far has the fell come, measured on the loom under tension? The picks are worked out at the planned beat and marked as estimated.',
        )}
      </p>
    </CountLength>
  );
}
