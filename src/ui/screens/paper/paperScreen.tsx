/** On paper: a preview of the cards, the tape and the code, and the way to the printer. */

import { useMemo, useState } from 'preact/hooks';
import type { Paper } from '../../../core/paper/paper.ts';
import { t } from '../../language/t.ts';
import { Choice } from '../../parts/choice.tsx';
import { leavePaper } from '../../printing.ts';
import { type PaperJob, screen } from '../../state.ts';
import '../../style/fields.css';
import '../../style/paper.css';
import { CodePage } from './codePage.tsx';
import { LoomCardPages } from './loomCardPages.tsx';
import { TapeChoices, type TapeSettings } from './tapeChoices.tsx';
import { TapePages } from './tapePages.tsx';
import { WarpingCardPages } from './warpingCardPages.tsx';

const CARDS = [
  { value: 'loom', words: t('Loom card') },
  { value: 'warping', words: t('Warping card') },
  { value: 'tape', words: t('Tape') },
  { value: 'code', words: t('Code') },
] as const;
type Card = (typeof CARDS)[number]['value'];

const PAPER_CHOICES = [
  { value: 'a4', words: 'A4' },
  // A size of paper, not for a reader's language.
  { value: 'letter', words: 'Letter' },
] as const satisfies readonly { value: Paper; words: string }[];

export function PaperScreen() {
  const now = screen.value;
  return now.kind === 'paper' ? <OnPaper job={now.job} /> : null;
}

function OnPaper({ job }: { readonly job: PaperJob }) {
  const [card, setCard] = useState<Card>('loom');
  const [paper, setPaper] = useState<Paper>(() => paperOf(navigator.language));
  const [tape, setTape] = useState<TapeSettings>({ piece: 'all', ink: 'black', measured: 100 });
  const { plan } = job.course;
  return (
    <main class="paper">
      <header class="paper-head">
        <button type="button" class="button quiet" onClick={() => leavePaper(job)}>
          {t('‹ Back')}
        </button>
        <h1>{t('On paper: {name}', { name: plan.name })}</h1>
        <button type="button" class="button strong" onClick={() => print()}>
          {t('Print')}
        </button>
      </header>
      <div class="paper-choices">
        <Choice label={t('What')} options={CARDS} chosen={card} onChoose={setCard} />
        <Choice label={t('Paper')} options={PAPER_CHOICES} chosen={paper} onChoose={setPaper} />
        {card === 'tape' ? <TapeChoices plan={plan} settings={tape} onChange={setTape} /> : null}
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard */}
      <section class="pages" key={`${card} ${paper}`} tabIndex={0} aria-label={t('Preview')}>
        <Pages card={card} job={job} paper={paper} tape={tape} />
      </section>
    </main>
  );
}

interface PagesProps {
  readonly card: Card;
  readonly job: PaperJob;
  readonly paper: Paper;
  readonly tape: TapeSettings;
}

function Pages({ card, job, paper, tape }: PagesProps) {
  const pieces = useMemo(
    () => job.course.pieces.map(({ index }) => index).filter((it) => isChosen(tape.piece, it)),
    [job, tape.piece],
  );
  switch (card) {
    case 'loom':
      return <LoomCardPages job={job} paper={paper} />;
    case 'warping':
      return <WarpingCardPages job={job} paper={paper} />;
    case 'code':
      return <CodePage job={job} paper={paper} />;
    case 'tape':
      return (
        <TapePages
          job={job}
          paper={paper}
          pieces={pieces}
          ink={tape.ink}
          stretch={100 / tape.measured}
        />
      );
  }
}

const isChosen = (chosen: TapeSettings['piece'], piece: number) =>
  chosen === 'all' || chosen === piece;

/** Letter is the paper of North America and the Philippines, A4 of everywhere else (CLDR). */
function paperOf(language: string): Paper {
  const letter = ['US', 'CA', 'MX', 'PH', 'CL', 'CO', 'CR', 'GT', 'NI', 'PA', 'SV', 'VE', 'PR'];
  const country = /-([A-Z]{2})\b/i.exec(language)?.[1]?.toUpperCase();
  return country !== undefined && letter.includes(country) ? 'letter' : 'a4';
}
