/** From here: every sensible place to stop, and the plans that come out right. */
import { useMemo, useState } from 'preact/hooks';
import type { Fit, PieceEnding, Revision, Stop } from '../../../../core/bench/endings/ending.ts';
import { endingsNow, nearestFirst, sensibleStops } from '../../../../core/bench/endingsNow.ts';
import { standingOf } from '../../../../core/bench/standing.ts';
import { happen } from '../../../actions.ts';
import '../../../style/endings.css';
import { length } from '../../../format.ts';
import { paceNow } from '../../../standing.ts';
import type { Session } from '../../../state.ts';
import {
  changeWords,
  fitTitle,
  lengthRows,
  placeWords,
  sameWords,
  warpAfterWords,
  wishWords,
  workWords,
  yarnsWords,
} from './endingWords.ts';

interface PageProps {
  readonly now: Session;
  readonly onDone: () => void;
}

/** More cards than these nobody reads at the loom. */
const MOST_SHOWN = 24;
const MOST_TURNS = 200;

export function EndingsPage({ now, onDone }: PageProps) {
  const { progress, plan } = now;
  const endings = useMemo(
    () => endingsNow(progress, standingOf(progress), paceNow()),
    [progress.course, progress.pick],
  );
  const [all, setAll] = useState(false);
  const sensible = sensibleStops(endings.stops);
  const stops = all
    ? endings.stops.slice(0, MOST_TURNS)
    : nearestFirst(sensible).slice(0, MOST_SHOWN);
  const adopt = (revision: Revision) => {
    happen({ kind: 'revised', from: revision.from, pieces: revision.pieces });
    onDone();
  };
  const wish =
    endings.stops[0] === undefined ? undefined : plan.pieces[endings.stops[0].piece]?.wish;
  return (
    <div class="endings">
      {wish === undefined ? null : (
        <p class="endings-wish">
          Wished: {length(wish.length, plan.units)} {STATES[wish.state]}
        </p>
      )}
      {endings.fits.length === 0 ? null : (
        <section aria-label="Plans that come out right">
          <h3>Plans that come out right</h3>
          <ol>
            {endings.fits.slice(0, 6).map((fit, i) => (
              <FitCard key={`${fit.aim}-${i}`} now={now} fit={fit} onAdopt={adopt} />
            ))}
          </ol>
        </section>
      )}
      <section aria-label="Places to stop">
        <h3>Places to stop</h3>
        <ol>
          {stops.map((stop) => (
            <StopCard key={stop.weftEnd} now={now} stop={stop} onAdopt={adopt} />
          ))}
        </ol>
        {all || sensible.length === endings.stops.length ? null : (
          <button type="button" class="button" onClick={() => setAll(true)}>
            Every turn as well
          </button>
        )}
      </section>
    </div>
  );
}

const STATES = {
  loom: 'on the loom',
  off: 'off the loom',
  washed: 'washed',
  finished: 'finished',
} as const;

interface StopCardProps {
  readonly now: Session;
  readonly stop: Stop;
  readonly onAdopt: (revision: Revision) => void;
}

function StopCard({ now, stop, onAdopt }: StopCardProps) {
  const { plan, progress } = now;
  const isPlanned = stop.place.kind === 'planned';
  return (
    <li class="ending" data-same={stop.reads.same} data-warp={stop.warp.verdict}>
      <EndingFacts now={now} title={placeWords(progress.course, stop)} ending={stop} />
      <div class="ending-foot">
        <p class="ending-warp">
          {workWords(stop)}; {warpAfterWords(stop.warp, plan.units)}
        </p>
        {isPlanned ? (
          <p class="ending-as-is">as the plan is</p>
        ) : (
          <button type="button" class="button" onClick={() => onAdopt(stop.revision())}>
            Stop there
          </button>
        )}
      </div>
    </li>
  );
}

interface FitCardProps {
  readonly now: Session;
  readonly fit: Fit;
  readonly onAdopt: (revision: Revision) => void;
}

function FitCard({ now, fit, onAdopt }: FitCardProps) {
  const { plan, progress } = now;
  const [first] = fit.pieces;
  if (first === undefined) return null;
  const title = `${fit.aim === 'wish' ? 'To the wished length' : 'To the end of the warp'}: ${fitTitle(fit)}`;
  return (
    <li class="ending" data-same={first.reads.same} data-warp={fit.warpAfterAll.verdict}>
      <EndingFacts now={now} title={title} ending={first} />
      <div class="ending-foot">
        <p class="ending-warp">
          {fit.changes
            .slice(0, 3)
            .map((it) => changeWords(progress.course, it))
            .join('; ')}
          {fit.changes.length > 3 ? ` and ${fit.changes.length - 3} more` : ''}
          {fit.changes.length > 0 ? '; ' : ''}
          {warpAfterWords(fit.warpAfterAll, plan.units)}
        </p>
        <button type="button" class="button" onClick={() => onAdopt(fit.revision())}>
          Weave it so
        </button>
      </div>
    </li>
  );
}

interface FactsProps {
  readonly now: Session;
  readonly title: string;
  readonly ending: PieceEnding;
}

function EndingFacts({ now, title, ending }: FactsProps) {
  const { plan } = now;
  const wish = wishWords(ending, plan.units);
  const yarns = yarnsWords(plan, ending);
  return (
    <>
      <h4>{title}</h4>
      <p class="ending-same">{sameWords(plan, ending)}</p>
      <dl class="ending-lengths">
        {lengthRows(ending, plan.units).map(({ state, words }) => (
          <div key={state}>
            <dt>{state}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      {wish === null ? null : <p class="ending-wish">{wish}</p>}
      {yarns === null ? null : <p class="ending-short">{yarns}</p>}
    </>
  );
}
