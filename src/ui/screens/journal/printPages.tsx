/** The journal on paper: one page a piece, with its picture. What is on the screen is what is printed. */

import { useMemo } from 'preact/hooks';
import { forPage } from '../../../core/journal/forPage.ts';
import type { Entry, Journal } from '../../../core/journal/journal.ts';
import { clothKindOf } from '../../../core/learn/clothKind.ts';
import type { PieceFigures } from '../../../core/learn/figure.ts';
import { dimensionalChange } from '../../../core/measure/takeUp.ts';
import { type PieceMet, type SizeMet, wishesMet } from '../../../core/planner/wishesMet.ts';
import { figures, woven } from '../../clothReading.ts';
import { inOurNumbers, length } from '../../format.ts';
import { journal } from '../../journaling.ts';
import { t } from '../../language/t.ts';
import { clothImage } from '../../parts/clothImage.ts';
import { SizesHead } from '../../parts/sizesHead.tsx';
import { percent } from '../../percent.ts';
import type { Session } from '../../state.ts';
import '../../style/story.css';
import { WISH_WORDS } from '../measure/words.ts';
import { PhotoView } from './photoView.tsx';
import { dayWords, stampWords, timeWords, toldWords } from './words.ts';

export interface PrintPagesProps {
  readonly now: Session;
  readonly onClose: () => void;
}

export function PrintPages({ now, onClose }: PrintPagesProps) {
  const story = journal.value;
  const [teaches, all] = [woven.value, figures.value];
  const met = useMemo(
    () =>
      teaches === null || all === null ? [] : wishesMet(now.plan, all.pieces, teaches.readings),
    [now.plan, teaches, all],
  );
  if (story === null) return null;
  const pieces = now.progress.course.pieces.filter((it) => it.firstPick < now.progress.pick);
  return (
    <main class="story">
      <header class="story-tools">
        <button type="button" class="button" onClick={onClose}>
          {t('‹ Journal')}
        </button>
        <p>{pieces.length === 0 ? t('There is no piece to print yet.') : t('One page a piece.')}</p>
        <button
          type="button"
          class="button strong"
          disabled={pieces.length === 0}
          onClick={() => print()}
        >
          {t('Print')}
        </button>
      </header>
      {pieces.map(({ index }) => (
        <Page
          key={index}
          now={now}
          piece={index}
          story={story}
          met={met[index] ?? null}
          figures={all?.pieces[index] ?? null}
        />
      ))}
    </main>
  );
}

interface PageProps {
  readonly now: Session;
  readonly piece: number;
  readonly story: Journal;
  readonly met: PieceMet | null;
  readonly figures: PieceFigures | null;
}

/** Pixels of the picture: sharp on a page of paper. */
const PICTURE = { width: 1600, height: 800 };

function Page({ now, piece, story, met, figures }: PageProps) {
  const { course } = now.progress;
  const name = now.plan.pieces[piece]?.name ?? '';
  const picture = useMemo(() => clothImage(course, piece, PICTURE), [course, piece]);
  const own = entriesOf(story, piece);
  return (
    <article class="story-page" aria-label={name}>
      <header>
        <h1>{name}</h1>
        <p>{now.plan.name}</p>
      </header>
      <img class="story-picture" src={picture} alt={t('The cloth of {name}', { name })} />
      <div class="story-columns">
        <Facts now={now} piece={piece} story={story} figures={figures} />
        {met === null ? null : <Sizes now={now} met={met} />}
      </div>
      <Photos entries={own} plan={now.plan} />
      <Notes entries={own} now={now} />
    </article>
  );
}

/** What belongs to the piece, and what was said of the whole warp. */
function entriesOf({ sittings }: Journal, piece: number): readonly Entry[] {
  return sittings
    .flatMap((it) => it.entries)
    .filter(({ what, piece: of }) =>
      what.kind === 'noted' || what.kind === 'photographed'
        ? what.piece === undefined || what.piece === piece
        : of === piece,
    );
}

function Facts({ now, piece, story, figures }: Omit<PageProps, 'met'>) {
  const { plan } = now;
  const work = story.pieces[piece];
  if (work === undefined) return null;
  const facts: readonly (readonly [string, string])[] = [
    [t('Woven'), work.from === null || work.to === null ? '–' : daysWords(work.from, work.to)],
    [t('Picks'), String(work.picks)],
    [t('At the loom'), work.minutes < 1 ? '–' : timeWords(work.minutes)],
    [t('Yarns'), plan.yarns.map((yarn) => `${yarn.letter} ${yarn.name}`).join(', ')],
    [t('Sett'), settWords(now)],
    ...changeFacts(figures),
  ];
  return (
    <dl class="story-facts">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function daysWords(from: string, to: string): string {
  const [first, last] = [dayWords(from), dayWords(to)];
  return first === last ? first : `${first} – ${last}`;
}

function settWords({ plan }: Session): string {
  const perMm = clothKindOf(plan).sett;
  return plan.units === 'inch'
    ? t('{n} ends per inch', { n: round(perMm * 25.4) })
    : t('{n} ends per cm', { n: round(perMm * 10) });
}

const round = (value: number) => inOurNumbers(String(Math.round(value * 10) / 10));

function changeFacts(figures: PieceFigures | null): readonly (readonly [string, string])[] {
  if (figures === null) return [];
  const { offLength, washedLength, offWidth, washedWidth } = figures.sizes;
  const both = [
    [t('Change in length (ISO 5077)'), offLength, washedLength],
    [t('Change in width (ISO 5077)'), offWidth, washedWidth],
  ] as const;
  return both.flatMap(([name, before, after]) =>
    before === null || after === null
      ? []
      : [[name, percent(dimensionalChange(before.mm, after.mm) / 100)] as const],
  );
}

function Sizes({ now, met }: { readonly now: Session; readonly met: PieceMet }) {
  const rows: readonly (readonly [string, SizeMet])[] = [
    [t('Length {state}', { state: WISH_WORDS[met.state] }), met.length],
    [t('Width washed'), met.width],
    ...(met.fringe === null ? [] : ([[t('Fringe'), met.fringe]] as const)),
  ];
  const short = (mm: number | null) => (mm === null ? '–' : length(mm, now.plan.units));
  return (
    <table class="story-sizes">
      <SizesHead />
      <tbody>
        {rows.map(([name, size]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{short(size.wished)}</td>
            <td>{short(size.forecast)}</td>
            <td>{short(size.real)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** As many as leave the page a page. */
const MOST_PHOTOS = 3;
/** Lines of print there is room for, beside photos and without. */
const LINES = { beside: 9, alone: 18 } as const;

function Photos({
  entries,
  plan,
}: {
  readonly entries: readonly Entry[];
  readonly plan: Session['plan'];
}) {
  const photos = entries.flatMap(({ what }) => (what.kind === 'photographed' ? [what] : []));
  if (photos.length === 0) return null;
  return (
    <div class="story-photos">
      {photos.slice(-MOST_PHOTOS).map((it) => (
        <figure key={it.photo}>
          <PhotoView id={it.photo} words={toldWords(plan, it)} />
          <figcaption>{it.text}</figcaption>
        </figure>
      ))}
    </div>
  );
}

interface NotesProps {
  readonly entries: readonly Entry[];
  readonly now: Session;
}

function Notes({ entries, now }: NotesProps) {
  const told = entries
    .filter(({ what }) => what.kind !== 'photographed')
    .map((entry) => ({ entry, words: toldWords(now.plan, entry.what) }));
  const lines = told.length < entries.length ? LINES.beside : LINES.alone;
  const kept = forPage(
    told.map(({ entry, words }) => ({ text: words, isNote: entry.what.kind === 'noted' })),
    lines,
  );
  const shown = told.filter((_, place) => kept.includes(place));
  const left = told.length - shown.length;
  return (
    <ul class="story-notes">
      {shown.map(({ entry, words }) => (
        <li key={entry.id}>
          <time dateTime={entry.at}>{stampWords(entry.at)}</time>
          <span>{words}</span>
        </li>
      ))}
      {left === 0 ? null : <li>{t('{n} more in the journal', { n: left })}</li>}
    </ul>
  );
}
