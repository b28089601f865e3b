/** From here: every sensible place to stop, and the plans that come out right. */
import { useMemo, useState } from 'preact/hooks';
import type { Fit, PieceEnding, Revision, Stop } from '../../../../core/bench/endings/ending.ts';
import { endingsNow, nearestFirst, sensibleStops } from '../../../../core/bench/endingsNow.ts';
import { standingOf } from '../../../../core/bench/standing.ts';
import { happen } from '../../../actions.ts';
import '../../../style/endings.css';
import { length } from '../../../format.ts';
import { t } from '../../../language/t.ts';
import { paceNow } from '../../../standing.ts';
import type { Session } from '../../../state.ts';
import {
  fitTitle,
  fitWords,
  inARow,
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
          {t(
            'Wished: {length} {state, select, loom {on the loom} off {off the loom} washed {washed} other {finished}}',
            { length: length(wish.length, plan.units), state: wish.state },
          )}
        </p>
      )}
      {endings.fits.length === 0 ? null : (
        <section aria-label={t('Plans that come out right')}>
          <h3>{t('Plans that come out right')}</h3>
          <ol>
            {endings.fits.slice(0, 6).map((fit, i) => (
              <FitCard key={`${fit.aim}-${i}`} now={now} fit={fit} onAdopt={adopt} />
            ))}
          </ol>
        </section>
      )}
      <section aria-label={t('Places to stop')}>
        <h3>{t('Places to stop')}</h3>
        <ol>
          {stops.map((stop) => (
            <StopCard key={stop.weftEnd} now={now} stop={stop} onAdopt={adopt} />
          ))}
        </ol>
        {all || sensible.length === endings.stops.length ? null : (
          <button type="button" class="button" onClick={() => setAll(true)}>
            {t('Every turn as well')}
          </button>
        )}
      </section>
    </div>
  );
}

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
          {inARow([workWords(stop), warpAfterWords(stop.warp, plan.units)])}
        </p>
        {isPlanned ? (
          <p class="ending-as-is">{t('as the plan is')}</p>
        ) : (
          <button type="button" class="button" onClick={() => onAdopt(stop.revision())}>
            {t('Stop there')}
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
  const { progress } = now;
  const [first] = fit.pieces;
  if (first === undefined) return null;
  const how = { how: fitTitle(fit) };
  const title =
    fit.aim === 'wish' ? t('To the wished length: {how}', how) : t('To fit the warp: {how}', how);
  return (
    <li class="ending" data-same={first.reads.same} data-warp={fit.warpAfterAll.verdict}>
      <EndingFacts now={now} title={title} ending={first} />
      <div class="ending-foot">
        <p class="ending-warp">{fitWords(progress.course, fit)}</p>
        <button type="button" class="button" onClick={() => onAdopt(fit.revision())}>
          {t('Weave it so')}
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
