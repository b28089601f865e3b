/** The shuttles at their true sides, parked in order: nearest the weaver lowest, the one to take marked. */
import type { ParkedShuttle } from '../../../core/bench/parked.ts';
import type { Plan, Side, Yarn } from '../../../core/plan/plan.ts';
import { t } from '../../language/t.ts';
import { still } from '../../parts/still.ts';

export interface ShuttlesProps {
  readonly plan: Plan;
  /** On a narrow screen only the wound part of a shuttle is drawn, so that its letter stays large. */
  readonly narrow: boolean;
  readonly parked: Readonly<Record<Side, readonly ParkedShuttle[]>>;
}

/** One drawing a yarn, always in the same order: a shuttle that changes sides is moved, not drawn anew. */
export const Shuttles = still(({ plan, narrow, parked }: ShuttlesProps) => {
  const lying = (['left', 'right'] as const).flatMap((side) =>
    parked[side].map((shuttle, place, { length }) => ({ ...shuttle, side, place, lying: length })),
  );
  return (
    <>
      {lying
        .sort((one, other) => one.yarn - other.yarn)
        .map(({ yarn, ...shuttle }) => (
          <Shuttle key={yarn} yarn={plan.yarns[yarn]} narrow={narrow} {...shuttle} />
        ))}
    </>
  );
});

interface ShuttleProps extends Pick<ParkedShuttle, 'state'> {
  readonly yarn: Yarn | undefined;
  readonly narrow: boolean;
  readonly side: Side;
  /** How many lie nearer the weaver on its side, and how many lie there in all. */
  readonly place: number;
  readonly lying: number;
}

/** A stick shuttle from above: notched ends, yarn wound along its middle. */
function Shuttle({ yarn, narrow, state, side, place, lying }: ShuttleProps) {
  if (yarn === undefined) return null;
  return (
    <svg
      class={`shuttle shuttle-${state}`}
      viewBox={narrow ? '20 0 80 44' : '0 0 120 44'}
      style={{ '--place': place, '--lying': lying }}
      data-yarn={yarn.letter}
      data-side={side}
      role="img"
      aria-label={t(
        '{yarn}, {state, select, working {working} resting {resting} other {ready}}, on the {side, select, left {left} other {right}}',
        { yarn: yarn.name, state, side },
      )}
    >
      <Drawing yarn={yarn} />
    </svg>
  );
}

const Drawing = still(({ yarn }: { readonly yarn: Yarn }) => (
  <>
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
  </>
));
