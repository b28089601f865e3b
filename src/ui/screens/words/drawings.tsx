/** Small drawings of what words alone do not tell. The weaver sits below; the heddle is above. */

import type { JSX } from 'preact';
import { t } from '../../language/t.ts';
import type { TermId } from './terms.ts';

const range = (from: number, to: number, step: number) =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);

/** Warp ends, upright. */
function Ends({ from, to, top, bottom }: Record<'from' | 'to' | 'top' | 'bottom', number>) {
  return (
    <path
      class="drawn-end"
      d={range(from, to, 10)
        .map((x) => `M${x} ${top} V${bottom}`)
        .join(' ')}
    />
  );
}

/** Picks, lying across. */
function Picks({ left, right, at, of }: PicksProps) {
  return (
    <path class={`drawn-pick drawn-${of}`} d={at.map((y) => `M${left} ${y} H${right}`).join(' ')} />
  );
}

interface PicksProps {
  readonly left: number;
  readonly right: number;
  readonly at: readonly number[];
  readonly of: 'one' | 'other';
}

function Word({
  x,
  y,
  children,
}: {
  readonly x: number;
  readonly y: number;
  readonly children: string;
}) {
  return (
    <text x={x} y={y} class="drawn-word">
      {children}
    </text>
  );
}

function Fell() {
  return (
    <>
      <Ends from={40} to={200} top={10} bottom={130} />
      <Picks left={34} right={206} at={range(80, 128, 8)} of="one" />
      <path class="drawn-mark" d="M34 74 H206" />
      <Word x={214} y={79}>
        {t('fell')}
      </Word>
      <Word x={214} y={112}>
        {t('cloth')}
      </Word>
      <Word x={214} y={34}>
        {t('warp')}
      </Word>
    </>
  );
}

function Hemstitch() {
  const groups = range(45, 165, 40);
  return (
    <>
      <Ends from={40} to={200} top={60} bottom={134} />
      <Picks left={34} right={206} at={range(20, 60, 8)} of="one" />
      {groups.map((x) => (
        <path key={x} class="drawn-mark" d={`M${x + 35} 60 V36 M${x - 5} 70 H${x + 35} V60`} />
      ))}
      <path class="drawn-mark" d="M40 70 Q22 78 20 110" />
      <Word x={214} y={45}>
        {t('cloth')}
      </Word>
      <Word x={214} y={76}>
        {t('stitches')}
      </Word>
      <Word x={214} y={112}>
        {t('fringe')}
      </Word>
    </>
  );
}

function Shuttle({
  x,
  y,
  of,
}: {
  readonly x: number;
  readonly y: number;
  readonly of: 'one' | 'other';
}) {
  return (
    <g transform={`translate(${x} ${y})`}>
      <path class="drawn-wood" d="M0 0 H60 V14 H0 Z" />
      <rect class={`drawn-wound drawn-${of}`} x="10" y="-1" width="40" height="16" rx="5" />
    </g>
  );
}

function Parked() {
  return (
    <>
      <Ends from={124} to={244} top={8} bottom={134} />
      <Picks left={120} right={248} at={range(76, 132, 8)} of="one" />
      <Shuttle x={16} y={44} of="other" />
      <Shuttle x={16} y={92} of="one" />
      <path class="drawn-thin" d="M76 51 Q108 56 120 76 M76 99 Q108 98 120 92" />
      <Word x={8} y={34}>
        {t('used last')}
      </Word>
      <Word x={8} y={128}>
        {t('to take next')}
      </Word>
    </>
  );
}

function Carried() {
  return (
    <>
      <Ends from={80} to={220} top={8} bottom={134} />
      <Picks left={76} right={224} at={[20, 28, 116, 124]} of="other" />
      <Picks left={76} right={224} at={range(40, 108, 8)} of="one" />
      <path
        class="drawn-carried"
        d="M76 116 C62 108 62 92 74 88 C62 82 62 62 74 58 C62 52 62 36 76 28"
      />
      <path class="drawn-mark" d="M70 88 h10 M70 58 h10" />
      <Word x={4} y={76}>
        {t('caught')}
      </Word>
    </>
  );
}

function Tension() {
  return (
    <>
      <Picks left={60} right={120} at={range(40, 128, 8)} of="one" />
      <Ends from={65} to={115} top={10} bottom={134} />
      <Picks left={206} right={266} at={range(58, 128, 7)} of="one" />
      <path
        class="drawn-end"
        d={range(211, 261, 10)
          .map((x) => `M${x} 134 V58 Q${x + 5} 40 ${x} 28 T${x} 8`)
          .join(' ')}
      />
      <path
        class="drawn-mark"
        d="M50 36 V132 M44 36 h12 M44 132 h12 M194 54 V132 M188 54 h12 M188 132 h12"
      />
      <Word x={4} y={24}>
        {t('tight')}
      </Word>
      <Word x={136} y={24}>
        {t('eased')}
      </Word>
    </>
  );
}

function Alternation() {
  const turns = range(0, 4, 1);
  return (
    <>
      {turns.map((k) => (
        <Picks
          key={k}
          left={40}
          right={200}
          at={[16 + k * 24, 26 + k * 24]}
          of={k % 2 === 0 ? 'one' : 'other'}
        />
      ))}
      <path class="drawn-mark" d="M210 12 h8 v18 h-8" />
      <Word x={226} y={26}>
        {t('a turn')}
      </Word>
    </>
  );
}

function Fringe() {
  return (
    <>
      <Ends from={40} to={200} top={10} bottom={134} />
      <Picks left={34} right={206} at={[...range(12, 44, 8), ...range(100, 132, 8)]} of="one" />
      <path class="drawn-cut" d="M24 72 H216" />
      <Word x={214} y={34}>
        {t('next piece')}
      </Word>
      <Word x={222} y={77}>
        {t('cut')}
      </Word>
      <Word x={214} y={122}>
        {t('this piece')}
      </Word>
    </>
  );
}

const DRAWINGS: Partial<Record<TermId, () => JSX.Element>> = {
  alternation: Alternation,
  turn: Alternation,
  carried: Carried,
  fell: Fell,
  fringe: Fringe,
  hemstitch: Hemstitch,
  parked: Parked,
  tension: Tension,
};

/** The drawing of a word, where there is one. The words beside it say the same. */
export function Drawing({ term }: { readonly term: TermId }) {
  const Drawn = DRAWINGS[term];
  if (Drawn === undefined) return null;
  return (
    <svg class="drawing" viewBox="0 0 300 142" aria-hidden="true">
      <Drawn />
    </svg>
  );
}
