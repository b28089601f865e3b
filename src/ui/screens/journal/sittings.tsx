/** Sitting by sitting, the latest first: what was woven, and what else happened. */

import type { Entry, Journal, Sitting } from '../../../core/journal/journal.ts';
import { holds } from '../../../core/journal/search.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { takeOut } from '../../journaling.ts';
import { t } from '../../language/t.ts';
import { PhotoView } from './photoView.tsx';
import {
  clockWords,
  LONG_SITTING_MINUTES,
  placeWords,
  REST,
  searchWords,
  sittingWords,
  spanWords,
  toldWords,
} from './words.ts';

export interface SittingsProps {
  readonly plan: Plan;
  readonly journal: Journal;
  readonly search: string;
}

export function Sittings({ plan, journal, search }: SittingsProps) {
  const found = foundIn(plan, journal, search);
  const long = journal.sittings.some((it) => it.minutes >= LONG_SITTING_MINUTES);
  return (
    <section class="sittings" aria-label={t('Sittings')}>
      {long ? <p class="care">{REST}</p> : null}
      {found.length === 0 ? (
        <p class="lead">
          {search.trim() === '' ? NOTHING : t('Nothing here holds “{search}”.', { search })}
        </p>
      ) : (
        found.map((sitting) => <SittingPart key={sitting.id} plan={plan} sitting={sitting} />)
      )}
    </section>
  );
}

const NOTHING = t('Nothing has happened yet. What is woven, noted and measured is told here.');

/** The latest first; with a search only what holds it. */
function foundIn(plan: Plan, { sittings }: Journal, search: string): readonly Sitting[] {
  const latest = sittings.toReversed();
  if (search.trim() === '') return latest;
  return latest.flatMap((sitting) => {
    const entries = sitting.entries.filter((it) => holds(searchWords(plan, it), search));
    const named = holds(spanWords(sitting.from, sitting.to), search);
    return named ? [sitting] : entries.length === 0 ? [] : [{ ...sitting, entries }];
  });
}

function SittingPart({ plan, sitting }: { readonly plan: Plan; readonly sitting: Sitting }) {
  return (
    <article class="sitting">
      <header>
        <h2>{spanWords(sitting.from, sitting.to)}</h2>
        <p>{sittingWords(plan, sitting)}</p>
      </header>
      {sitting.entries.length === 0 ? null : (
        <ul class="entries">
          {sitting.entries.map((entry) => (
            <EntryRow key={entry.id} plan={plan} entry={entry} />
          ))}
        </ul>
      )}
    </article>
  );
}

function EntryRow({ plan, entry }: { readonly plan: Plan; readonly entry: Entry }) {
  const { what } = entry;
  const words = toldWords(plan, what);
  const own = what.kind === 'noted' || what.kind === 'photographed';
  const place = placeWords(plan, entry);
  return (
    <li class="entry" data-kind={what.kind}>
      <time dateTime={entry.at}>{clockWords(entry.at)}</time>
      <div class="entry-words">
        <p>{words}</p>
        {what.kind === 'photographed' ? <PhotoView id={what.photo} words={words} /> : null}
        {place === '' ? null : <p class="hint">{place}</p>}
      </div>
      {own ? (
        <button
          type="button"
          class="button quiet"
          aria-label={t('Take out: {words}', { words })}
          onClick={() => takeOut(entry.event)}
        >
          {t('Take out')}
        </button>
      ) : null}
    </li>
  );
}
