/** Picks and lengths of one yarn, counted at once. */
import { useState } from 'preact/hooks';
import { yarnAt } from '../../../../core/bench/pickAt.ts';
import type { Mm } from '../../../../core/measure/length.ts';
import type { Letter } from '../../../../core/plan/plan.ts';
import { happen } from '../../../actions.ts';
import { LengthPad } from '../../../parts/lengthPad.tsx';
import { Stepper } from '../../../parts/stepper.tsx';
import type { Session } from '../../../state.ts';
import '../../../style/padForm.css';
import { YarnChoice } from './yarnChoice.tsx';

interface FormProps {
  readonly now: Session;
  readonly onClose: () => void;
}

const QUICK = [4, 10, 20, 50] as const;
const MOST = 999;

export function PicksByEye({ now, onClose }: FormProps) {
  const [yarn, setYarn] = useState(inHand(now));
  const [picks, setPicks] = useState(2);
  return (
    <div class="form">
      <YarnChoice plan={now.plan} chosen={yarn} onChoose={setYarn} />
      <Stepper label="Picks thrown" value={picks} least={1} most={MOST} onChange={setPicks} />
      <div class="row">
        {QUICK.map((it) => (
          <button type="button" key={it} class="button" onClick={() => setPicks(it)}>
            {it}
          </button>
        ))}
      </div>
      <button
        type="button"
        class="button strong"
        onClick={() => {
          happen({ kind: 'thrownOf', yarn, picks });
          onClose();
        }}
      >
        Count {picks}
      </button>
    </div>
  );
}

export function LengthByEye({ now, onClose }: FormProps) {
  const [yarn, setYarn] = useState(inHand(now));
  const [loomLength, setLength] = useState<Mm | null>(null);
  const done = () => {
    if (loomLength === null) return;
    happen({ kind: 'woveLengthOf', yarn, loomLength });
    onClose();
  };
  return (
    <div class="form">
      <p>
        How much of this yarn was woven, measured on the loom under tension? Its picks are worked
        out at the beat now known and marked as estimated.
      </p>
      <YarnChoice plan={now.plan} chosen={yarn} onChoose={setYarn} />
      <LengthPad units={now.plan.units} onLength={setLength} />
      <div class="pad-save">
        <button type="button" class="button strong" disabled={loomLength === null} onClick={done}>
          Count this length
        </button>
      </div>
    </div>
  );
}

/** The yarn thrown last. */
function inHand({ plan, progress }: Session): Letter {
  return plan.yarns[yarnAt(progress.course, progress.pick)]?.letter ?? 'A';
}
