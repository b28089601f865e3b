/** What this warp taught, figure by figure, as it is read, and what the next plans start from. */
import type { Knowledge } from '../../../core/learn/knowledge.ts';
import { nextShare, type PooledShare } from '../../../core/learn/pooled.ts';
import type { Summary } from '../../../core/learn/summary.ts';
import { t } from '../../language/t.ts';
import { LabelWords } from '../../parts/words.tsx';
import { percent } from '../../percent.ts';
import type { TermId } from '../words/terms.ts';
import { FIGURE_WORDS, wantWords } from './words.ts';

export interface TaughtProps {
  readonly summaries: readonly Summary[];
  /** From all warps of this cloth, this one with them. */
  readonly known: Knowledge | null;
  readonly demo: boolean;
}

export function Taught({ summaries, known, demo }: TaughtProps) {
  return (
    <section class="taught" aria-label={t('What it taught')}>
      <h2>{t('What it taught')}</h2>
      <p class="hint">{demo ? DEMO : known === null ? NOTHING : USED}</p>
      <ul class="taught-list">
        {summaries.map((it) => (
          <FigureRow key={it.name} summary={it} known={known?.shares[it.name] ?? null} />
        ))}
      </ul>
    </section>
  );
}

const DEMO = t('A demo teaches nothing: no plan starts from these figures.');
const NOTHING = t('The figures come as the readings do. What is not read is not learnt.');
const USED = t(
  'The next plan with these yarns, this sett and this loom starts from these figures by itself, and says so.',
);

const EXPLAINED: Partial<Record<Summary['name'], TermId>> = {
  drawIn: 'draw-in',
  relax: 'relax',
  shrinkLength: 'shrinkage',
  shrinkWidth: 'shrinkage',
  crimp: 'take-up',
  warpTaken: 'take-up',
};

interface FigureRowProps {
  readonly summary: Summary;
  readonly known: PooledShare | null;
}

function FigureRow({ summary, known }: FigureRowProps) {
  const { name, of } = FIGURE_WORDS[summary.name];
  return (
    <li class="taught-row" data-kind={summary.kind}>
      <p class="taught-name">
        <strong>
          <LabelWords label={name} word={EXPLAINED[summary.name]} />
        </strong>
        <span>{of}</span>
      </p>
      <p class="taught-share">{shareWords(summary)}</p>
      <p class="taught-note">
        {noteWords(summary)}
        {summary.kind === 'learnt' && known !== null ? (
          <span>{nextWords(summary.name === 'warpTaken', known)}</span>
        ) : null}
      </p>
    </li>
  );
}

const shareWords = (it: Summary) =>
  it.kind === 'learnt' ? percent(it.share) : it.kind === 'implausible' ? percent(it.share) : '–';

function noteWords(it: Summary): string {
  switch (it.kind) {
    case 'learnt': {
      const source =
        it.name === 'warpTaken'
          ? t('this warp')
          : t('{n, plural, one {# piece} other {# pieces}}', { n: it.pieces });
      return `${source}, ±\u00a0${percent(it.spread)}`;
    }
    case 'not-learnt':
      return wantWords(it.wants);
    case 'implausible':
      return t('No cloth does that: look at the readings again. Not learnt.');
  }
}

/** Nine in ten of the next pieces, and what they are told from. */
function nextWords(ofWarps: boolean, known: PooledShare): string {
  const { from, to } = nextShare(known);
  return t(
    'Next: {share}, likely {low} to {high}, from {of, select, warps {{warps, plural, one {# warp} other {# warps}}} pieces {{pieces, plural, one {# piece} other {# pieces}}} other {{pieces, plural, one {# piece} other {# pieces}} of {warps} warps}}.',
    {
      share: percent(known.share),
      low: percent(from),
      high: percent(to),
      of: ofWarps ? 'warps' : known.warps > 1 ? 'both' : 'pieces',
      warps: known.warps,
      pieces: known.pieces,
    },
  );
}
