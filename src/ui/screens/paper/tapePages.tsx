/** The tape at true size: strips to cut out, join and pin to the cloth. */

import { useMemo } from 'preact/hooks';
import { hatchStyles } from '../../../core/paper/hatch.ts';
import { printable } from '../../../core/paper/paper.ts';
import { layTape, type Strip, TAPE_FOOT, TAPE_HEAD } from '../../../core/paper/tape.ts';
import { t } from '../../language/t.ts';
import type { CardPagesProps } from './loomCardPages.tsx';
import { Page } from './page.tsx';
import { FlatBar, UprightBar } from './tape/checkBars.tsx';
import { Legend } from './tape/legend.tsx';
import { StripDrawing, type TapeLook } from './tape/strip.tsx';

export interface TapePagesProps extends CardPagesProps {
  /** Indices of the pieces. */
  readonly pieces: readonly number[];
  readonly ink: TapeLook['ink'];
  readonly stretch: number;
}

export function TapePages({ job, paper, pieces, ink, stretch }: TapePagesProps) {
  const { course, dues } = job;
  const { plan } = course;
  const pages = useMemo(
    () => layTape(course, dues, pieces, { paper, units: plan.units, stretch }),
    [course, dues, pieces, paper, plan, stretch],
  );
  const look: TapeLook = {
    course,
    dues,
    ink,
    hatch: hatchStyles(plan.yarns.map((yarn) => yarn.colour)),
  };
  return (
    <>
      {pages.map((strips, page) => (
        <Page
          key={page}
          paper={paper}
          title={t('Tape')}
          about={plan.name}
          page={page}
          of={pages.length}
        >
          <TapePage strips={strips} look={look} paper={paper} stretch={stretch} />
        </Page>
      ))}
    </>
  );
}

interface TapePageProps {
  readonly strips: readonly Strip[];
  readonly look: TapeLook;
  readonly paper: CardPagesProps['paper'];
  readonly stretch: number;
}

/** The drawing lies under the page's head, in the same millimetres. */
function TapePage({ strips, look, paper, stretch }: TapePageProps) {
  const { width, height } = printable(paper);
  const top = TAPE_HEAD - 1;
  return (
    <svg
      class="tape-page"
      viewBox={`0 ${top} ${width} ${height - top}`}
      preserveAspectRatio="xMinYMin meet" /* not for a reader */
      role="img"
      aria-label={t('Strips of the tape, with bars to check the size by')}
    >
      <UprightBar x={3.5} top={TAPE_HEAD + 2} stretch={stretch} />
      {strips.map((strip) => (
        <StripDrawing key={`${strip.pieces[0]} ${strip.part}`} strip={strip} look={look} />
      ))}
      <FlatBar x={0.3} top={height - TAPE_FOOT + 3} stretch={stretch} />
      <Legend x={108} top={height - TAPE_FOOT + 3} look={look} />
    </svg>
  );
}
