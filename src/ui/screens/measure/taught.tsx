/** What this warp taught, figure by figure, as it is read, and what the next plans start from. */
import type { Knowledge } from '../../../core/learn/knowledge.ts';
import { nextShare, type PooledShare } from '../../../core/learn/pooled.ts';
import type { Summary } from '../../../core/learn/summary.ts';
import { count, percent } from '../../format.ts';
import { FIGURE_WORDS, wantWords } from './words.ts';

export interface TaughtProps {
  readonly summaries: readonly Summary[];
  /** From all warps of this cloth, this one with them. */
  readonly known: Knowledge | null;
  readonly demo: boolean;
}

export function Taught({ summaries, known, demo }: TaughtProps) {
  return (
    <section class="taught" aria-label="What it taught">
      <h2>What it taught</h2>
      <p class="hint">{demo ? DEMO : known === null ? NOTHING : USED}</p>
      <ul class="taught-list">
        {summaries.map((it) => (
          <FigureRow key={it.name} summary={it} known={known?.shares[it.name] ?? null} />
        ))}
      </ul>
    </section>
  );
}

const DEMO = 'A demo teaches nothing: no plan starts from these figures.';
const NOTHING = 'The figures come as the readings do. What is not read is not learnt.';
const USED =
  'The next plan with these yarns, this sett and this loom starts from these figures by itself, and says so.';

interface FigureRowProps {
  readonly summary: Summary;
  readonly known: PooledShare | null;
}

function FigureRow({ summary, known }: FigureRowProps) {
  const { name, of } = FIGURE_WORDS[summary.name];
  return (
    <li class="taught-row" data-kind={summary.kind}>
      <p class="taught-name">
        <strong>{name}</strong>
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
      const source = it.name === 'warpTaken' ? 'this warp' : count(it.pieces, 'piece');
      return `${source}, ±\u00a0${percent(it.spread)}`;
    }
    case 'not-learnt':
      return wantWords(it.wants);
    case 'implausible':
      return 'No cloth does that: look at the readings again. Not learnt.';
  }
}

/** Nine in ten of the next pieces, and what they are told from. */
function nextWords(ofWarps: boolean, known: PooledShare): string {
  const { from, to } = nextShare(known);
  const source = ofWarps
    ? count(known.warps, 'warp')
    : `${count(known.pieces, 'piece')}${known.warps > 1 ? ` of ${known.warps} warps` : ''}`;
  return `Next: ${percent(known.share)}, likely ${percent(from)} to ${percent(to)}, from ${source}.`;
}
