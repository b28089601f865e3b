/** A stretch chosen from the woven cloth of a piece: by its ends, or by the blocks that lie in it. */

import { useEffect, useMemo, useState } from 'preact/hooks';
import {
  blocksFound,
  type FoundBlock,
  weftWovenOf,
  wovenOf,
} from '../../../core/bench/byEye/choosing.ts';
import { type Stretch, stretchLength, stripesIn } from '../../../core/bench/byEye/stretch.ts';
import type { Course } from '../../../core/bench/course.ts';
import { length } from '../../format.ts';
import { t } from '../../language/t.ts';
import { showMotifs } from '../../motifPages.ts';
import { loadMotifs } from '../../motifs.ts';
import { StretchPicture } from '../../parts/stretchPicture.tsx';
import { type Screen, type Session, session } from '../../state.ts';
import '../../style/motifs.css';
import '../../style/stretch.css';
import { BackButton } from '../motifs/backButton.tsx';
import { EndButtons } from './endButtons.tsx';
import { FoundBlocks } from './foundBlocks.tsx';
import { KeepBar } from './keepBar.tsx';
import { PieceTabs } from './pieceTabs.tsx';
import { Strip } from './strip.tsx';

export interface StretchScreenProps {
  /** The piece shown first, counted from 0. */
  readonly first: number;
  readonly back: Screen;
}

export function StretchScreen({ first, back }: StretchScreenProps) {
  const now = session.value;
  const [chosen, setChosen] = useState(first);
  useEffect(() => void loadMotifs(), []);
  if (now === null) return null;
  const { course, pick } = now.progress;
  const begun = course.pieces.filter((it) => wovenOf(course, it.index, pick) !== null);
  const piece = begun.find((it) => it.index === chosen)?.index ?? begun.at(-1)?.index;
  return (
    <main class="column motifs stretch">
      <header class="column-head motifs-head">
        <BackButton back={back} />
        <h1>{t('Choose a stretch')}</h1>
        <button type="button" class="button" onClick={showMotifs}>
          {t('Motifs')}
        </button>
      </header>
      {piece === undefined ? (
        <p class="lead">{t('Nothing is woven yet.')}</p>
      ) : (
        <>
          <PieceTabs
            plan={now.plan}
            pieces={begun.map((it) => it.index)}
            chosen={piece}
            onChoose={setChosen}
          />
          <Chooser key={piece} now={now} piece={piece} />
        </>
      )}
    </main>
  );
}

interface ChooserProps {
  readonly now: Session;
  readonly piece: number;
}

function Chooser({ now, piece }: ChooserProps) {
  const { course, pick } = now.progress;
  const within = wovenOf(course, piece, pick) ?? { from: 0, to: 1 };
  const weft = weftWovenOf(course, piece, pick) ?? within;
  const found = useMemo(() => blocksFound(course, weft), [course, weft.from, weft.to]);
  const [stretch, setStretch] = useState<Stretch>(() => lastFound(found) ?? weft);
  const name = now.plan.pieces[piece]?.name ?? '';
  return (
    <div class="chooser">
      <Strip
        course={course}
        piece={piece}
        within={within}
        stretch={stretch}
        onStretch={setStretch}
      />
      <div class="chosen">
        <div class="chosen-near">
          <StretchPicture
            course={course}
            piece={piece}
            stretch={stretch}
            label={t('The stretch of {name}, near', { name })}
            look="near"
          />
        </div>
        <EndButtons course={course} within={within} stretch={stretch} onStretch={setStretch} />
      </div>
      <FoundBlocks
        now={now}
        found={found}
        weft={weft}
        stretch={stretch}
        onStretch={({ from, to }) => setStretch({ from, to })}
      />
      <KeepBar now={now} piece={piece} stretch={stretch} size={sizeWords(course, stretch, now)} />
    </div>
  );
}

/** What was woven last is most often what is wanted again. */
function lastFound(found: readonly FoundBlock[]): Stretch | null {
  const last = found.findLast((it) => it.depth === 0);
  return last === undefined ? null : { from: last.from, to: last.to };
}

function sizeWords(course: Course, stretch: Stretch, { plan }: Session): string {
  return t(
    '{picks, plural, one {# pick} other {# picks}} in {stripes, plural, one {# stripe} other {# stripes}}, {long}',
    {
      picks: stretch.to - stretch.from,
      stripes: stripesIn(course, stretch).length,
      long: length(stretchLength(course, stretch), plan.units),
    },
  );
}
