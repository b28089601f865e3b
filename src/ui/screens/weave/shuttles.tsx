/** The shuttles at their true sides, parked in order: nearest the weaver lowest, the one to take marked. */
import type { ParkedShuttle } from '../../../core/bench/parked.ts';
import type { Plan, Side } from '../../../core/plan/plan.ts';
import { t } from '../../language/t.ts';

export interface ShuttlesProps {
  readonly plan: Plan;
  /** On a narrow screen only the wound part of a shuttle is drawn, so that its letter stays large. */
  readonly narrow: boolean;
  readonly side: Side;
  readonly parked: readonly ParkedShuttle[];
}

export function Shuttles({ plan, narrow, side, parked }: ShuttlesProps) {
  return (
    <div class={`shuttles shuttles-${side}`}>
      {parked.map((shuttle) => (
        <Shuttle key={shuttle.yarn} plan={plan} narrow={narrow} shuttle={shuttle} side={side} />
      ))}
    </div>
  );
}

interface ShuttleProps {
  readonly plan: Plan;
  readonly narrow: boolean;
  readonly shuttle: ParkedShuttle;
  readonly side: Side;
}

/** A stick shuttle from above: notched ends, yarn wound along its middle. */
function Shuttle({ plan, narrow, shuttle, side }: ShuttleProps) {
  const yarn = plan.yarns[shuttle.yarn];
  if (yarn === undefined) return null;
  return (
    <svg
      class={`shuttle shuttle-${shuttle.state}`}
      viewBox={narrow ? '20 0 80 44' : '0 0 120 44'}
      data-yarn={yarn.letter}
      data-side={side}
      role="img"
      aria-label={t(
        '{yarn}, {state, select, working {working} resting {resting} other {ready}}, on the {side, select, left {left} other {right}}',
        { yarn: yarn.name, state: shuttle.state, side },
      )}
    >
      <path
        class="shuttle-wood"
        d="M4 8 H20 Q27 22 20 36 H4 Q12 22 4 8 Z M100 8 H116 Q108 22 116 36 H100 Q93 22 100 8 Z M18 14 H102 V30 H18 Z"
      />
      <rect x="24" y="6" width="72" height="32" rx="8" fill={yarn.colour} class="shuttle-yarn" />
      {[34, 42, 78, 86].map((x) => (
        <path key={x} d={`M${x} 7 Q${x + 5} 22 ${x} 37`} class="shuttle-wind" />
      ))}
      <circle cx="60" cy="22" r="15" class="shuttle-plate" />
      <text x="60" y="30.5" class="shuttle-letter">
        {yarn.letter}
      </text>
    </svg>
  );
}
