/** Picks and lengths of one yarn, counted at once. */
import { useState } from 'preact/hooks';
import { yarnAt } from '../../../../core/bench/pickAt.ts';
import type { Letter } from '../../../../core/plan/plan.ts';
import { happen } from '../../../actions.ts';
import { t } from '../../../language/t.ts';
import type { Session } from '../../../state.ts';
import { CountLength, CountPicks } from '../countParts.tsx';
import { YarnChoice } from './yarnChoice.tsx';

interface FormProps {
  readonly now: Session;
  readonly onClose: () => void;
}

const QUICK = [4, 10, 20, 50] as const;
const MOST = 999;

export function PicksByEye({ now, onClose }: FormProps) {
  const [yarn, setYarn] = useState(inHand(now));
  return (
    <CountPicks
      most={MOST}
      quick={QUICK}
      onCount={(picks) => {
        happen({ kind: 'thrownOf', yarn, picks });
        onClose();
      }}
    >
      <YarnChoice plan={now.plan} chosen={yarn} onChoose={setYarn} />
    </CountPicks>
  );
}

export function LengthByEye({ now, onClose }: FormProps) {
  const [yarn, setYarn] = useState(inHand(now));
  return (
    <CountLength
      units={now.plan.units}
      onCount={(loomLength) => {
        happen({ kind: 'woveLengthOf', yarn, loomLength });
        onClose();
      }}
    >
      <p>
        {t(
          'How much of this yarn was woven, measured on the loom under tension? Its picks are worked out at the beat now known and marked as estimated.',
        )}
      </p>
      <YarnChoice plan={now.plan} chosen={yarn} onChoose={setYarn} />
    </CountLength>
  );
}

/** The yarn thrown last. */
function inHand({ plan, progress }: Session): Letter {
  return plan.yarns[yarnAt(progress.course, progress.pick)]?.letter ?? 'A';
}
